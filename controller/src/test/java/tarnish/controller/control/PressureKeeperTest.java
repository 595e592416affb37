package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

class PressureKeeperTest {
  private static final double HOLD_PA = 20_000;

  private static Step.Soak coldSoak() {
    return new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 295, 1e6, 5);
  }

  @Test
  void aSmallLackIsLeftAlone() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.pressurePa = HOLD_PA * 0.986;
    vessel.forSeconds(60);
    assertEquals(0, vessel.bench.state.gas().pulses());
    vessel.pressurePa = HOLD_PA * 0.984;
    vessel.tick();
    assertTrue(vessel.open());
    vessel.untilOpen(false, 10);
    assertEquals(HOLD_PA, vessel.pressurePa, 251);
    assertTrue(vessel.pressurePa >= HOLD_PA);
  }

  @Test
  void aLargeLackIsFilledInPulsesOfTheLimitWithTimeBetween() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.pressurePa = 10_000;
    vessel.tick();
    for (int i = 0; i < 3; i++) {
      assertTrue(vessel.open());
      double beforePa = vessel.pressurePa;
      vessel.untilOpen(false, 10);
      assertEquals(2000, vessel.pressurePa - beforePa, 251);
      assertEquals(30, vessel.untilOpen(true, 100), 0.6);
    }
  }

  @Test
  void aSampleThatRunsAheadOfTheOvenGetsNoOxygen() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.excessK = 6;
    vessel.forSeconds(120);
    vessel.pressurePa = 10_000;
    vessel.forSeconds(60);
    assertEquals(0, vessel.bench.state.gas().pulses());
    vessel.excessK = 4;
    vessel.forSeconds(60);
    assertTrue(vessel.bench.state.gas().pulses() > 0);
  }

  @Test
  void aSampleBelowTheSetpointIsNotAhead() {
    Step.Soak hot = new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 500, 1e6, 5);
    DosedVessel vessel = new DosedVessel(hot);
    vessel.forSeconds(3000);
    assertEquals(500, vessel.bench.state.setpointK());
    vessel.excessK = 100;
    vessel.pressurePa = 5000;
    vessel.forSeconds(120);
    assertTrue(vessel.bench.state.gas().pulses() > 0, "the setpoint is above the sample");
  }

  /** Filled to the full pressure when cold, the vessel would go through its limit on the way up. */
  @Test
  void aColdVesselIsNotOverfilled() {
    Step.Ramp ramp = new Step.Ramp(TestSteps.holding("Ramp", HOLD_PA), 600, 0.001);
    DosedVessel vessel = new DosedVessel(ramp);
    vessel.pressurePa = 5000;
    vessel.forSeconds(1200);
    TwoZoneVolume volume = new TwoZoneVolume(TestRig.HOT_M3, TestRig.COLD_M3);
    double mol = volume.amountMol(vessel.pressurePa, 295, 295);
    double whenHotPa = volume.pressurePa(mol, 600, 295);
    assertEquals(HOLD_PA, whenHotPa, 0.02 * HOLD_PA + 400);
    assertTrue(vessel.pressurePa < 0.7 * HOLD_PA, "cold at " + vessel.pressurePa);
  }

  @Test
  void aVesselHotterThanItsGoalIsFilledToTheFullPressure() {
    Step.Ramp down = new Step.Ramp(TestSteps.holding("Ramp", HOLD_PA), 296, 1e-6);
    DosedVessel vessel = new DosedVessel(down);
    vessel.bench.allAtK(400);
    vessel.excessK = 105;
    vessel.bench.set(Channel.OVEN_TEMPERATURE, 400);
    vessel.pressurePa = 19_000;
    vessel.forSeconds(60);
    assertEquals(HOLD_PA, vessel.pressurePa, 500);
  }

  @Test
  void withoutAPressureToKeepNothingIsToppedUp() {
    DosedVessel vessel = new DosedVessel(TestSteps.soak(295, 1e6, 5));
    vessel.pressurePa = 1000;
    vessel.forSeconds(60);
    assertEquals(0, vessel.bench.state.gas().pulses());
  }

  @Test
  void aPausedBatchTopsUpNothing() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.tick(new Request.Pause("Ada"));
    vessel.pressurePa = 10_000;
    vessel.forSeconds(120);
    assertEquals(0, vessel.bench.state.gas().pulses());
  }

  /** A tick of a soak that holds 20 kPa at 295 K, with an even temperature. */
  private static TickWork tick(double pressurePa, double sampleK) {
    return tick(
        new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 295, 1e6, 5), pressurePa, sampleK);
  }

  private static TickWork tick(Step step, double pressurePa, double sampleK) {
    ControlBench bench = ControlBench.with(step);
    bench.pressurePa(pressurePa).allAtK(sampleK);
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    work.tickS = 0.25;
    work.phase = BatchState.RUNNING;
    work.setpointK = sampleK;
    work.heat = new HeatWatch(sampleK, sampleK, sampleK, sampleK, HeatBalance.NONE);
    return work;
  }

  private static boolean topsUp(TickWork work) {
    PressureKeeper.step(HOLD_PA, work.doing().step(), work);
    return work.pulse.open();
  }

  /** 1.5 % of 20 kPa are 300 Pa. */
  @Test
  void theLackMustBeMoreThanTheDeadbandAndTheLastTopUpHalfAMinuteOld() {
    assertTrue(topsUp(tick(19_700, 295)));
    assertFalse(topsUp(tick(19_710, 295)));
    TickWork soon = tick(19_000, 295);
    soon.pulse = new Pulse(false, 0, 0, 0, 29.75, 0);
    assertFalse(topsUp(soon));
    TickWork due = tick(19_000, 295);
    due.pulse = new Pulse(false, 0, 0, 0, 30, 0);
    assertTrue(topsUp(due));
    assertEquals(1000, due.pulse.toPa() - due.pulse.fromPa(), 1e-6);
  }

  @Test
  void fiveKelvinsAheadAreNotYetTooMany() {
    TickWork ahead = tick(19_000, 295);
    ahead.heat = new HeatWatch(300, 295, 295, 295, HeatBalance.NONE);
    assertTrue(topsUp(ahead));
    TickWork tooFar = tick(19_000, 295);
    tooFar.heat = new HeatWatch(300.125, 295, 295, 295, HeatBalance.NONE);
    assertFalse(topsUp(tooFar));
    tooFar.heat = new HeatWatch(300.125, 296, 295, 295, HeatBalance.NONE);
    assertTrue(topsUp(tooFar), "the oven is warmer, too");
  }

  /** n = p/R (V_hot/T + V_cold/T_room): the same gas shows less pressure before it is hot. */
  @Test
  void aVesselToBeHeatedIsFilledForItsGoal() {
    Step hot = new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 600, 1e6, 5);
    double perPaAtGoal = TestRig.HOT_M3 / 600 + TestRig.COLD_M3 / 295;
    double perPaNow = TestRig.HOT_M3 / 400 + TestRig.COLD_M3 / 295;
    double wantedPa = HOLD_PA * perPaAtGoal / perPaNow;
    TickWork work = tick(hot, 14_000, 400);
    assertTrue(topsUp(work));
    assertEquals(StrictMath.min(2000, wantedPa - 14_000), work.pulse.toPa() - 14_000, 5);
    assertFalse(topsUp(tick(hot, StrictMath.rint(wantedPa / 10) * 10, 400)));
    Step ramp = new Step.Ramp(TestSteps.holding("Ramp", HOLD_PA), 600, 0.1);
    assertFalse(topsUp(tick(ramp, StrictMath.rint(wantedPa / 10) * 10, 400)));
    Step cool =
        new Step.Cool(TestSteps.holding("Cool", HOLD_PA), 300, java.util.OptionalDouble.empty());
    assertTrue(topsUp(tick(cool, 19_000, 400)), "what cools is kept at the full pressure");
  }

  /** 80 % of 20 kPa at the step's own temperature. */
  @Test
  void aPressureIsFarBelowUnderFourFifthsOfWhatIsKeptNow() {
    assertFalse(PressureKeeper.isFarBelow(tick(16_000, 295)));
    assertTrue(PressureKeeper.isFarBelow(tick(15_990, 295)));
    Step hot = new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 600, 1e6, 5);
    double share =
        (TestRig.HOT_M3 / 600 + TestRig.COLD_M3 / 295)
            / (TestRig.HOT_M3 / 400 + TestRig.COLD_M3 / 295);
    assertFalse(PressureKeeper.isFarBelow(tick(hot, 0.8 * HOLD_PA * share + 20, 400)));
    assertTrue(PressureKeeper.isFarBelow(tick(hot, 0.8 * HOLD_PA * share - 20, 400)));
    assertFalse(PressureKeeper.isFarBelow(tick(TestSteps.soak(295, 1e6, 5), 100, 295)));
    TickWork blind = tick(100, 295);
    blind.readings.bad(Channel.OVEN_TEMPERATURE, tarnish.shared.reading.BadReason.STALE);
    assertFalse(PressureKeeper.isFarBelow(blind), "what is not believed tells nothing");
  }
}
