package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/** What each kind of step does in one tick, at its limits. Readings can meet them exactly. */
class StepRunsTest {
  private static final double RATE_K_PER_S = 0.5;

  private final TickByHand bench = new TickByHand();

  private TickWork at(double sampleK) {
    TickWork work = bench.heat(sampleK, sampleK).at(1000);
    work.phase = BatchState.RUNNING;
    work.setpointK = sampleK;
    return work;
  }

  private TickWork atPa(double pressurePa) {
    return bench.pressure(pressurePa).at(1000);
  }

  private static StepRun begun(Step step) {
    return StepRun.begin(new Instruction.Do(step, 0, RATE_K_PER_S));
  }

  private static boolean demands(TickWork work, Switch which) {
    return (work.demandBits() & InterlockRow.bit(which)) != 0;
  }

  @Test
  void everyStepBeginsAsItsOwnKind() {
    assertEquals(EvacuateRun.begin(100), begun(TestSteps.evacuate(100)));
    assertEquals(new RampRun(TestSteps.ramp(500, 0.1)), begun(TestSteps.ramp(500, 0.1)));
    Step.Soak soak = TestSteps.soak(500, 60, 3);
    assertEquals(new SoakRun(soak, RATE_K_PER_S, 0), begun(soak));
    assertEquals(new CoolRun(TestSteps.cool(350)), begun(TestSteps.cool(350)));
    assertEquals(new AskRun(TestSteps.ask(), false), begun(TestSteps.ask()));
    assertEquals(OpenRun.Stage.COOLING, ((OpenRun) begun(TestSteps.open())).stage());
    assertTrue(begun(TestSteps.leakTest(60, 600, 0.1)) instanceof LeakTestRun);
    Step.Repeat repeat = TestSteps.repeat(2, new RepeatUntil.CountOnly(), soak);
    assertThrows(IllegalArgumentException.class, () -> begun(repeat));
  }

  @Test
  void aStepThatIsDoneStaysDoneAndSaysHow() {
    StepRun done = new StepRun.Done("at 400 °C");
    assertSame(done, done.step(at(295)));
    assertSame(done, done.reentered());
    assertEquals("at 400 °C", done.doing());
  }

  @Test
  void coolingWithoutARateKeepsTheHeaterOffUntilTheSampleIsThere() {
    CoolRun cool = new CoolRun(TestSteps.cool(350));
    TickWork warm = at(350.125);
    assertSame(cool, cool.step(warm));
    assertEquals(ControlState.HEATER_OFF, warm.setpointK);
    StepRun there = cool.step(at(350));
    assertEquals("at " + Words.temperature(350), there.doing());
    assertSame(cool, cool.reentered());
    assertEquals("cooling to " + Words.temperature(350), cool.doing());
  }

  @Test
  void coolingAtARateMovesTheSetpointDown() {
    CoolRun cool =
        new CoolRun(new Step.Cool(TestSteps.unattended("Cool"), 350, OptionalDouble.of(0.5)));
    TickWork work = at(400);
    assertSame(cool, cool.step(work));
    assertEquals(400 - 0.5 * 0.25, work.setpointK, 1e-12);
  }

  @Test
  void theSetpointMovesAtItsRateStopsAtItsEndAndStartsFromTheSample() {
    TickWork work = at(400);
    Setpoint.move(work, 401, 2);
    assertEquals(400.5, work.setpointK);
    Setpoint.move(work, 401, 2);
    assertEquals(401, work.setpointK, "half a kelvin was left: just the step");
    assertTrue(Setpoint.isAt(401, work));
    Setpoint.move(work, 399, 2);
    assertEquals(400.5, work.setpointK);
    assertFalse(Setpoint.isAt(399, work));
    work.setpointK = ControlState.HEATER_OFF;
    Setpoint.move(work, 450, 2);
    assertEquals(400.5, work.setpointK, "from the sample, not from where it was");
  }

  @Test
  void aRampIsOverWhenSetpointAndSampleAreThere() {
    RampRun ramp = new RampRun(TestSteps.ramp(400, 1));
    TickWork behind = at(396.875);
    behind.setpointK = 400;
    assertSame(ramp, ramp.step(behind), "the sample is 3.1 K away");
    TickWork near = at(397);
    near.setpointK = 400;
    assertEquals("at " + Words.temperature(397), ramp.step(near).doing());
    TickWork early = at(400);
    early.setpointK = 397;
    assertSame(ramp, ramp.step(early), "the setpoint is not there");
    assertSame(ramp, ramp.reentered());
    assertEquals(
        "ramping to " + Words.temperature(400) + " at " + Words.temperatureRate(1), ramp.doing());
  }

  @Test
  void aSoakCountsTimeInItsBandOnlyAndSaysWhatWasEarned() {
    Step.Soak step = TestSteps.soak(400, 60, 3);
    SoakRun soak = new SoakRun(step, 1, 30);
    assertEquals(30.25, ((SoakRun) soak.step(at(403))).inBandS(), "at the edge of the band");
    assertSame(soak, soak.step(at(403.125)), "outside of it");
    assertSame(soak, soak.step(at(396.875)));
    TickWork last = at(400);
    StepRun done = new SoakRun(step, 1, 59.75).step(last);
    assertTrue(done instanceof StepRun.Done);
    assertEquals(List.of(new Event.SoakEarned(400, 60)), last.events());
    assertTrue(new SoakRun(step, 1, 59.5).step(at(400)) instanceof SoakRun);
    assertSame(soak, soak.reentered());
    assertEquals(
        "soaking at " + Words.temperature(400) + ": 30 s of 1 min at temperature", soak.doing());
  }

  @Test
  void aQuestionIsPutOnceAndItsAnswerEndsTheStep() {
    Step.Ask step = TestSteps.ask(TestSteps.mass("product"));
    AskRun ask = new AskRun(step, false);
    TickWork work = at(400);
    AskRun asked = (AskRun) ask.step(work);
    assertTrue(asked.asked());
    assertEquals(ControlState.HEATER_OFF, work.setpointK);
    assertEquals(step.questions(), work.question.fields());
    assertSame(asked, asked.step(work), "not answered yet");
    assertEquals(1, work.questions);
    work.question = null;
    assertEquals("answered", asked.step(work).doing());
    assertSame(asked, asked.reentered());
    assertEquals("waiting for a person: Weigh the product", ask.doing());
  }

  @Test
  void pumpingGoesOnForTwoSteadySecondsAndTenMore() {
    EvacuateRun pump = EvacuateRun.begin(100);
    for (int i = 0; i < 7; i++) {
      pump = (EvacuateRun) pump.step(atPa(100));
    }
    TickWork work = atPa(110);
    EvacuateRun again = (EvacuateRun) pump.step(work);
    assertEquals(0, again.down().reachedS(), "one reading above begins anew");
    assertTrue(demands(work, Switch.PUMP) && demands(work, Switch.VACUUM));
    assertEquals(0, pump.moreS());
    pump = (EvacuateRun) pump.step(atPa(100));
    assertEquals(0.25, pump.moreS());
    pump = (EvacuateRun) pump.step(atPa(110));
    assertEquals(0.5, pump.moreS(), "once reached, a noisy reading ends nothing");
    StepRun done = new EvacuateRun(pump.down(), 9.75).step(atPa(100));
    assertEquals("at 1.0 mbar", done.doing());
    assertEquals(EvacuateRun.begin(100), pump.reentered());
    assertEquals("pumping down to 1.0 mbar", pump.doing());
  }

  private static BackfillRun oxygenFill(int cyclesLeft, boolean filling) {
    return new BackfillRun(Step.Gas.OXYGEN, 20_000, PumpDown.to(500), cyclesLeft, filling);
  }

  @Test
  void aFillGoesOnWithTheNextAfterItsPressureAndAPauseBeginsItAnew() {
    BackfillRun filling = oxygenFill(2, true);
    assertEquals(oxygenFill(1, false), filling.step(atPa(20_000)));
    assertEquals(oxygenFill(2, false), filling.reentered());
    BackfillRun last = oxygenFill(1, true);
    assertTrue(last.step(atPa(20_000)) instanceof StepRun.Done);
    TickWork work = atPa(19_990);
    assertSame(filling, filling.step(work));
    assertTrue(demands(work, Switch.OXYGEN));
  }

  private static OpenRun opening(OpenRun.Stage stage) {
    Step.Open step = TestSteps.open();
    return new OpenRun(
        step, stage, BackfillRun.begin(Step.Gas.INERT, step.purgeToPa(), step.evacuateToPa(), 2));
  }

  /** The bench of the test opens below 313.15 K; readings come in eighths. */
  @Test
  void aColdVesselWaitsForAPersonAndIsThenBroughtToRoomPressure() {
    OpenRun cooling =
        OpenRun.begin(
            new Step.Open(TestSteps.attended("Open"), 313.125, 2, 90_000, 500, List.of()));
    TickWork cold = at(313.125);
    assertSame(cooling, cooling.step(cold), "nobody is there");
    assertTrue(cooling.waitsForPerson(cold));
    cold.presence = new Presence("Ada", Long.MAX_VALUE, false);
    assertFalse(cooling.waitsForPerson(cold));
    assertEquals(OpenRun.Stage.RELIEVING, ((OpenRun) cooling.step(cold)).stage());
    TickWork warm = at(313.25);
    assertFalse(cooling.waitsForPerson(warm), "it only cools");
    warm.presence = cold.presence;
    assertSame(cooling, cooling.step(warm));
    assertFalse(opening(OpenRun.Stage.RELIEVING).waitsForPerson(at(300)), "a person came");
  }

  @Test
  void aVesselIsRelievedToWithinTenMillibarOfTheRoom() {
    OpenRun relieving = opening(OpenRun.Stage.RELIEVING);
    double roomPa = TestRig.ROOM_PA;
    TickWork over = atPa(roomPa + 1010);
    assertSame(relieving, relieving.step(over));
    assertTrue(demands(over, Switch.VENT));
    assertFalse(demands(over, Switch.INERT));
    TickWork under = atPa(roomPa - 1010);
    assertSame(relieving, relieving.step(under));
    assertTrue(demands(under, Switch.INERT));
    for (double even : new double[] {roomPa + 1000, roomPa - 1000}) {
      TickWork work = atPa(even);
      assertEquals(OpenRun.Stage.WAITING, ((OpenRun) relieving.step(work)).stage());
      assertEquals(OpenQuestion.Purpose.READY_TO_OPEN, work.question.purpose());
      assertEquals(List.of(), work.question.fields(), "nothing is to be weighed yet");
      assertEquals(0, work.demandBits());
    }
  }

  @Test
  void anOpeningSaysAtEachStageWhatItDoes() {
    assertEquals(
        "cooling below 40.0 °C to open the vessel", opening(OpenRun.Stage.COOLING).doing());
    assertEquals("bringing the vessel to room pressure", opening(OpenRun.Stage.RELIEVING).doing());
    assertEquals("waiting for a person to open the vessel", opening(OpenRun.Stage.WAITING).doing());
    assertEquals(
        "sweeping with inert gas while the vessel is open",
        opening(OpenRun.Stage.SWEEPING).doing());
    assertEquals(
        "purging after closing: pumping down to 5.0 mbar, 2 fills to go",
        opening(OpenRun.Stage.PURGING).doing());
  }

  @Test
  void aPulseEndsAtItsPressureOrAfterItsTime() {
    Pulse open = Pulse.NONE.begin(50_000, 1000, 10);
    TickWork work = atPa(50_990);
    assertTrue(open.step(50_990, work).open());
    assertTrue(demands(work, Switch.OXYGEN));
    TickWork full = atPa(51_000);
    assertFalse(open.step(51_000, full).open());
    assertEquals(0, full.demandBits());
    Pulse old = new Pulse(true, 50_000, 51_000, 9.75, 0, 10);
    assertFalse(old.step(50_900, atPa(50_900)).open(), "10 s are over");
    assertTrue(new Pulse(true, 50_000, 51_000, 9.5, 0, 10).step(50_900, work).open());
    assertEquals(60, Pulse.NONE.begin(50_000, 1000).mostS());
    assertEquals(60, Pulse.NONE.begin(50_000, 1000, 100).mostS());
  }

  /** 8 s and a quarter of 1000 Pa. */
  @Test
  void aPulseWithoutASignOfGasIsShutAndReported() {
    Pulse blind = new Pulse(true, 50_000, 51_000, 7.75, 0, 60);
    TickWork nothing = atPa(50_240);
    assertFalse(blind.step(50_240, nothing).open());
    assertEquals(1, nothing.events().size());
    TickWork enough = atPa(50_250);
    assertTrue(blind.step(50_250, enough).open());
    assertTrue(new Pulse(true, 50_000, 51_000, 7.5, 0, 60).step(50_000, atPa(50_000)).open());
  }

  @Test
  void aShutPulseCountsTheTimeSinceItsEnd() {
    Pulse shut = Pulse.NONE.begin(50_000, 1000).shut();
    assertEquals(0, shut.sinceS());
    assertEquals(0.25, shut.step(51_000, atPa(51_000)).sinceS());
    assertSame(shut, shut.shut());
  }
}
