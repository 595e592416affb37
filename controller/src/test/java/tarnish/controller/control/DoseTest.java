package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Limits;

class DoseTest {
  private static final long SEED = 1013;

  private static Step.Dose dose(
      double pulsePa, double toPa, int most, double waitMinS, double waitMaxS) {
    return new Step.Dose(
        TestSteps.unattended("Dose"), pulsePa, toPa, most, 0.5, 0.5, waitMinS, waitMaxS);
  }

  private static DoseRun run(DosedVessel vessel) {
    return (DoseRun) vessel.bench.state.run();
  }

  @Test
  void aPulseIsNeverLargerThanTheRecipesStepNorTheLimitBeyondOneTicksFlow() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 300; i++) {
      double pulsePa = random.nextDouble(300, 5000);
      TestRig rig = new TestRig();
      Limits l = rig.unattended;
      double limitPa = random.nextDouble(300, 5000);
      rig.unattended =
          new Limits(l.sampleMaxK(), l.ovenMaxK(), l.sealMaxK(), l.pressureMaxPa(), 0.1, limitPa);
      DosedVessel vessel = new DosedVessel(rig, dose(pulsePa, 90_000, 50, 10, 600));
      vessel.flowPaPerS = random.nextDouble(200, 3000);
      for (int pulse = 0; pulse < 3; pulse++) {
        vessel.untilOpen(true, 100);
        assertTrue(vessel.open());
        double beforePa = vessel.pressurePa;
        vessel.untilOpen(false, 100);
        double stepPa = vessel.pressurePa - beforePa;
        double allowedPa = StrictMath.min(pulsePa, limitPa);
        double tickPa = vessel.flowPaPerS * ControlBench.TICK_S;
        assertTrue(stepPa <= allowedPa + tickPa + 1, "seed " + SEED + " step " + stepPa);
        assertTrue(stepPa >= allowedPa - 1, "seed " + SEED + " step " + stepPa);
      }
      assertEquals(BatchState.RUNNING, vessel.bench.phase());
    }
  }

  @Test
  void theFirstPulseComesAtOnceAndTheNextAfterTheShortestWait() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 40, 600));
    assertTrue(vessel.open());
    vessel.untilOpen(false, 10);
    assertEquals(40, vessel.untilOpen(true, 100), 0.51);
    assertEquals(2, run(vessel).given());
  }

  @Test
  void thePulseWaitsUntilItsHeatIsOver() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    vessel.untilOpen(false, 10);
    vessel.excessK = 2;
    assertEquals(100, vessel.untilOpen(true, 100), "2 K above its course");
    assertEquals("heat not settled", run(vessel).waitingFor());
    assertTrue(run(vessel).doing().endsWith("waiting: heat not settled"));
    vessel.excessK = 0;
    // The watch is filtered with 10 s: from 2 K it is below 0.5 K after 10 ln 4 = 13.9 s.
    assertEquals(13.9, vessel.untilOpen(true, 100), 1);
  }

  /**
   * A soak of two hours that lets the balance learn, whose oven leaps up just before its end, so
   * that the sample is still on its way when the first pulse comes.
   *
   * @param reactionK what a reaction adds to the sample from the first pulse on
   * @return time from the first pulse to the next, or the most
   */
  private static double secondsToTheNextPulse(double reactionK) {
    Step.Dose dose =
        new Step.Dose(
            TestSteps.unattended("Dose"), 1000, 90_000, 50, 0.5, 0.5, 120, SLOW_TO_SETTLE_S);
    DosedVessel vessel = new DosedVessel(TestSteps.soak(300, 7900, 15), dose);
    double vesselK = 295;
    double sampleK = 295;
    double firstS = -1;
    boolean wasOpen = false;
    while (vessel.timeS < 7900 + 2 * SLOW_TO_SETTLE_S) {
      double t = vessel.timeS;
      double leapK = t < 7600 ? 0 : t < 7950 ? 5 : 3;
      double ovenK = 295 + 8 * StrictMath.min(1, t / 600) + 0.5 * StrictMath.sin(t / 250) + leapK;
      vesselK += (295 + 0.96 * (ovenK - 295) - vesselK) * ControlBench.TICK_S / 300;
      double heatK = firstS >= 0 ? reactionK : 0;
      sampleK += (vesselK + heatK - sampleK) * ControlBench.TICK_S / 130;
      vessel.excessK = sampleK - 295;
      vessel.bench.set(Channel.OVEN_TEMPERATURE, ovenK);
      vessel.tick();
      if (vessel.open() && !wasOpen) {
        if (firstS >= 0) {
          return vessel.timeS - firstS;
        }
        firstS = vessel.timeS;
      }
      wasOpen = vessel.open();
    }
    assertEquals(BatchState.HELD, vessel.bench.phase(), "the longest wait is over");
    return SLOW_TO_SETTLE_S;
  }

  private static final double SLOW_TO_SETTLE_S = 1200;

  @Test
  void aSampleThatWasStillFollowingItsOvenIsNotTakenForAReactionForEver() {
    assertEquals(600, secondsToTheNextPulse(0), 5, "when the heat balance can tell");
  }

  @Test
  void aReactionOnASampleThatWasStillFollowingItsOvenIsWaitedFor() {
    assertEquals(SLOW_TO_SETTLE_S, secondsToTheNextPulse(0.6));
  }

  @Test
  void aHeatAtItsLimitDoesNotWait() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    vessel.untilOpen(false, 10);
    vessel.excessK = 0.48;
    assertEquals(20, vessel.untilOpen(true, 100), 0.6);
  }

  @Test
  void thePulseWaitsUntilUptakeHasSlowed() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    vessel.untilOpen(false, 10);
    vessel.uptakePaPerS = 1;
    assertEquals(120, vessel.untilOpen(true, 120), "twice the rate that counts as slowed");
    assertEquals("uptake not slowed", run(vessel).waitingFor());
    vessel.uptakePaPerS = 0;
    double waitedS = vessel.untilOpen(true, 200);
    assertTrue(waitedS > 20 && waitedS < 60, "the rate is that of the last minute: " + waitedS);
  }

  @Test
  void anUptakeSlowerThanTheLimitDoesNotWait() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 30, 600));
    vessel.untilOpen(false, 10);
    vessel.uptakePaPerS = 0.3;
    assertEquals(30, vessel.untilOpen(true, 100), 1);
  }

  @Test
  void noPulseFollowsWhileGasComesInByItself() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    vessel.untilOpen(false, 10);
    vessel.uptakePaPerS = -3;
    assertEquals(200, vessel.untilOpen(true, 200), "a valve that lets 3 Pa/s through when shut");
    assertEquals("pressure rises with every valve shut", run(vessel).waitingFor());
    assertFalse(vessel.bench.state.signs().gas().slowRise());
    vessel.forSeconds(110);
    assertFalse(vessel.open());
    assertTrue(vessel.bench.state.signs().gas().slowRise(), "found, for no pulse came between");
  }

  @Test
  void aSampleThatCoolsAfterItsReactionIsNoGasThatComesIn() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    vessel.untilOpen(false, 10);
    for (vessel.excessK = 6; vessel.excessK > 0.1; vessel.excessK -= 0.05) {
      vessel.tick();
    }
    vessel.excessK = 0;
    assertTrue(vessel.untilOpen(true, 200) < 60);
  }

  @Test
  void noPulseFollowsWhileTheRateOfTheLastOneIsNotYetKnown() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 0, 600));
    vessel.untilOpen(false, 10);
    vessel.uptakePaPerS = 5;
    assertEquals(60, vessel.untilOpen(true, 60), "ten times the rate that counts as slowed");
  }

  @Test
  void aPulseThatIsNotOverAfterTheLongestWaitHoldsTheBatch() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 100));
    vessel.untilOpen(false, 10);
    vessel.excessK = 2;
    vessel.forSeconds(99);
    assertEquals(BatchState.RUNNING, vessel.bench.phase());
    vessel.forSeconds(2);
    assertEquals(BatchState.HELD, vessel.bench.phase());
    Event.AlarmRaised raised = vessel.bench.events(Event.AlarmRaised.class).get(0);
    assertEquals(InterlockTable.STEP_OVERDUE, raised.alarm());
    assertTrue(raised.text().endsWith("heat not settled."), raised.text());
    assertFalse(vessel.open());

    vessel.excessK = 0;
    vessel.forSeconds(100);
    assertFalse(vessel.open());
    vessel.tick(
        new Request.Reset("Ada", InterlockTable.STEP_OVERDUE, "thermocouple had slipped"),
        new Request.Restart("Ada"));
    assertEquals(BatchState.RUNNING, vessel.bench.phase());
    assertEquals(20, vessel.untilOpen(true, 100), 1, "the waits begin anew after a hold");
  }

  @Test
  void aValveWithoutAPressureStepTripsAndIsShut() {
    DosedVessel vessel = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    vessel.flowPaPerS = 0;
    assertEquals(8, vessel.untilOpen(false, 60), 0.3);
    vessel.tick();
    assertEquals(BatchState.HELD, vessel.bench.phase());
    assertEquals(
        InterlockTable.NO_PRESSURE_STEP,
        vessel.bench.events(Event.AlarmRaised.class).get(0).alarm());
    vessel.forSeconds(60);
    assertFalse(vessel.open());
  }

  @Test
  void aQuarterOfTheStepIsSignEnough() {
    DosedVessel enough = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    enough.flowPaPerS = 33;
    assertEquals(1000 / 33.0, enough.untilOpen(false, 100), 0.5);
    assertEquals(BatchState.RUNNING, enough.bench.phase());
    DosedVessel tooLittle = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    tooLittle.flowPaPerS = 31;
    assertEquals(8, tooLittle.untilOpen(false, 100), 0.3);
  }

  @Test
  void noPulseIsLongerThanAMinute() {
    DosedVessel vessel = new DosedVessel(dose(2000, 90_000, 50, 20, 600));
    vessel.flowPaPerS = 70;
    vessel.forSeconds(20);
    vessel.flowPaPerS = 2;
    assertEquals(40, vessel.untilOpen(false, 100), 0.3);
    assertEquals(BatchState.RUNNING, vessel.bench.phase());
  }

  @Test
  void theStepEndsAtItsPressureOrAfterItsPulses() {
    DosedVessel vessel = new DosedVessel(dose(1000, 22_500, 50, 10, 600), TestSteps.ask());
    vessel.forSeconds(120);
    assertEquals(1, vessel.bench.state.cursor().position());
    Event.StepEnded ended = vessel.bench.events(Event.StepEnded.class).get(0);
    assertTrue(ended.how().startsWith("3 pulses"), ended.how());

    DosedVessel counted = new DosedVessel(dose(1000, 90_000, 4, 10, 600), TestSteps.ask());
    counted.forSeconds(200);
    assertEquals("all 4 pulses given", counted.bench.events(Event.StepEnded.class).get(0).how());
    assertEquals(4, counted.bench.state.gas().pulses());

    DosedVessel full = new DosedVessel(dose(1000, 20_000, 4, 10, 600), TestSteps.ask());
    assertFalse(full.open());
    assertEquals(1, full.bench.state.cursor().position());
  }

  @Test
  void aPauseShutsThePulseAndTheNextOneWaits() {
    DosedVessel vessel = new DosedVessel(dose(2000, 90_000, 50, 30, 600));
    vessel.tick(new Request.Pause("Ada"));
    assertFalse(vessel.open());
    vessel.forSeconds(100);
    vessel.tick(new Request.Resume("Ada"));
    assertEquals(30, vessel.untilOpen(true, 100), 1);
    assertEquals(2, run(vessel).given());
  }

  @Test
  void everyPulseIsRecordedWithItsAmount() {
    DosedVessel vessel =
        new DosedVessel(
            TestSteps.soak(295, 30, 5), dose(1000, 23_500, 50, 20, 600), TestSteps.ask());
    vessel.forSeconds(170);
    var pulses = vessel.bench.events(Event.PulseGiven.class);
    assertEquals(4, pulses.size());
    double perPa = (TestRig.HOT_M3 + TestRig.COLD_M3) / 295 / 8.31446261815324;
    for (int i = 0; i < 4; i++) {
      Event.PulseGiven pulse = pulses.get(i);
      assertEquals(i + 1, pulse.number());
      assertEquals(20_000 + 1000 * i, pulse.beforePa(), 1);
      assertEquals(1000 * perPa, pulse.admittedMol().value(), 2 * perPa);
      double noise = 0.5 * 10 * perPa;
      assertTrue(pulse.admittedMol().standardUncertainty() > noise);
      assertTrue(pulse.admittedMol().standardUncertainty() < 5 * noise);
    }
    assertEquals(4000 * perPa, vessel.bench.state.gas().admittedMol(), 8 * perPa);
  }

  @Test
  void stoppingEndsThePulseAndTheHeating() {
    Step.Soak warm = TestSteps.soak(400, 1e6, 3);
    DosedVessel vessel = new DosedVessel(warm);
    vessel.excessK = 60;
    vessel.forSeconds(10);
    assertTrue(vessel.bench.state.setpointK() > 0);
    vessel.tick(new Request.Stop("Ada"));
    assertEquals(BatchState.STOPPING, vessel.bench.phase());
    assertEquals(ControlState.HEATER_OFF, vessel.bench.state.setpointK());

    DosedVessel dosed = new DosedVessel(dose(1000, 90_000, 50, 20, 600));
    assertTrue(dosed.bench.state.pulse().open());
    dosed.excessK = 60;
    dosed.tick(new Request.Stop("Ada"));
    assertFalse(dosed.bench.state.pulse().open());
  }
}
