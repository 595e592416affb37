package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Switch;

class OpenAndAskTest {
  private static final String MASS = "mass of solid";

  private static OpenRun.Stage stage(ControlBench bench) {
    return ((OpenRun) bench.state.run()).stage();
  }

  private static boolean sweeping(ControlBench bench) {
    return bench.isOn(Switch.INERT) && bench.isOn(Switch.VENT);
  }

  private static void answer(ControlBench bench, Map<String, Double> values) {
    bench.tick(new Request.Answer("Ada", bench.state.question().number(), values, ""));
  }

  /** Cold, at room pressure, waiting for a person. */
  private static ControlBench waiting() {
    ControlBench bench = ControlBench.with(TestSteps.open(TestSteps.mass(MASS)), TestSteps.ask());
    bench.pressurePa(TestRig.ROOM_PA).start().ticks(3);
    assertEquals(OpenRun.Stage.WAITING, stage(bench));
    return bench;
  }

  private static ControlBench open() {
    ControlBench bench = waiting();
    answer(bench, Map.of());
    assertEquals(OpenRun.Stage.SWEEPING, stage(bench));
    return bench;
  }

  @Test
  void openingGoesFromCoolingToRelievingToThePerson() {
    ControlBench bench = ControlBench.with(TestSteps.open());
    bench.pressurePa(105_000).allAtK(400).start().forSeconds(10);
    assertEquals(OpenRun.Stage.COOLING, stage(bench));
    assertTrue(bench.allOff());
    bench.allAtK(313.2).tick();
    assertEquals(OpenRun.Stage.COOLING, stage(bench));
    bench.allAtK(313.1).tick();
    assertEquals(OpenRun.Stage.RELIEVING, stage(bench));
    bench.tick();
    assertTrue(bench.isOn(Switch.VENT) && !bench.isOn(Switch.INERT), "too much: it is vented");
    bench.pressurePa(TestRig.ROOM_PA + 1010).tick();
    assertTrue(bench.isOn(Switch.VENT));
    bench.pressurePa(TestRig.ROOM_PA - 1010).tick();
    assertTrue(bench.isOn(Switch.INERT) && !bench.isOn(Switch.VENT), "too little: it is filled");
    assertNull(bench.state.question());
    bench.pressurePa(TestRig.ROOM_PA - 1000).tick();
    assertEquals(OpenRun.Stage.WAITING, stage(bench));
    assertEquals(OpenQuestion.Purpose.READY_TO_OPEN, bench.state.question().purpose());
    assertTrue(bench.state.question().fields().isEmpty());
  }

  @Test
  void nothingMovesUntilAPersonAnswers() {
    ControlBench bench = waiting();
    for (int i = 0; i < 4 * 3600; i++) {
      bench.tick();
      assertTrue(bench.allOff());
    }
    assertEquals(OpenRun.Stage.WAITING, stage(bench));
    answer(bench, Map.of());
    assertTrue(sweeping(bench), "the sweep starts in the tick of the answer");
    assertEquals(OpenQuestion.Purpose.CLOSED_AGAIN, bench.state.question().purpose());
    assertEquals(1, bench.state.question().fields().size());
    assertEquals(2, bench.events(Event.Asked.class).size());
  }

  @Test
  void theSweepStaysOnThroughPauseHoldAndBadReadings() {
    ControlBench bench = open();
    for (int i = 0; i < 2000; i++) {
      switch (i) {
        case 100 -> bench.tick(new Request.Pause("Ada"));
        case 400 -> bench.tick(new Request.Resume("Ada"));
        case 600 -> bench.bad(Channel.SAMPLE_TEMPERATURE).tick();
        case 800 -> bench.allAtK(295).tick();
        case 900 -> bench.tick(new Request.Reset("Ada", "sample temperature lost", "plugged in"));
        case 1000 -> bench.tick(new Request.Restart("Ada"));
        default -> bench.tick();
      }
      assertTrue(sweeping(bench), "tick " + i + ", " + bench.phase().words());
      assertFalse(bench.isOn(Switch.OXYGEN) || bench.isOn(Switch.HEATER));
    }
    assertEquals(BatchState.RUNNING, bench.phase());
    assertEquals(OpenRun.Stage.SWEEPING, stage(bench));
  }

  @Test
  void theSweepOfAVesselThatIsStillClosedWaitsBelowTheLimitOfPressure() {
    ControlBench bench = open();
    double limitPa = bench.plan.rig().attended().pressureMaxPa();
    bench.pressurePa(limitPa - 1520).tick();
    assertTrue(sweeping(bench));
    bench.pressurePa(limitPa - 1480).tick();
    assertTrue(bench.isOn(Switch.VENT) && !bench.isOn(Switch.INERT), "it is only vented");
    bench.pressurePa(limitPa - 1980).tick();
    assertFalse(bench.isOn(Switch.INERT), "not at once again");
    bench.pressurePa(limitPa - 2020).tick();
    assertTrue(sweeping(bench));
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  /** Waiting for a person on a rig that left alone may not stand above 980 mbar. */
  private static ControlBench belowRoomAlone(Step.Open step) {
    TestRig rig = new TestRig();
    Limits l = rig.unattended;
    rig.unattended =
        new Limits(l.sampleMaxK(), l.ovenMaxK(), l.sealMaxK(), 98_000, 0.1, l.pulseMaxPa());
    ControlBench bench = new ControlBench(rig.build(), TestSteps.recipe(step, TestSteps.ask()));
    bench.pressurePa(TestRig.ROOM_PA).start().ticks(3);
    assertEquals(OpenRun.Stage.WAITING, stage(bench));
    return bench;
  }

  private static ControlBench overdue(ControlBench bench) {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.presence = new Presence("Ada", 0, true);
    bench.state = work.state();
    return bench;
  }

  @Test
  void aCheckInThatRunsOutDoesNotShutTheSweepOfAnOpenVessel() {
    ControlBench bench = belowRoomAlone(TestSteps.open(TestSteps.mass(MASS)));
    answer(bench, Map.of());
    overdue(bench).pressurePa(TestRig.ROOM_PA + 2000);
    for (int i = 0; i < 4 * 600; i++) {
      bench.tick();
      assertTrue(sweeping(bench), "tick " + i);
    }
    assertEquals(BatchState.RUNNING, bench.phase(), bench.state.phaseWhy());
    Report.Row shown = new Report(bench.plan, bench.state).interlocks().get(tooHigh(bench));
    assertEquals("above 1100.0 mbar", shown.limit(), "the page shows what is enforced");

    bench.pressurePa(110_100).forSeconds(1);
    assertFalse(bench.isOn(Switch.INERT), "above the limit of attended work it is shut");
    assertEquals(BatchState.HELD, bench.phase());
  }

  private static int tooHigh(ControlBench bench) {
    return bench.row("pressure too high");
  }

  @Test
  void aVesselAtRoomPressureThatWaitsForItsPersonIsNotTrippedWhenTheCheckInRunsOut() {
    ControlBench bench = overdue(belowRoomAlone(TestSteps.open(TestSteps.mass(MASS))));
    bench.forSeconds(600);
    assertEquals(BatchState.RUNNING, bench.phase(), bench.state.phaseWhy());
    assertTrue(bench.allOff());
  }

  @Test
  void aVesselThatIsClosedAgainKeepsTheLimitOfWhoIsThere() {
    ControlBench bench = belowRoomAlone(TestSteps.open(TestSteps.mass(MASS)));
    answer(bench, Map.of());
    answer(bench, Map.of(MASS, 4.2e-3));
    assertEquals(OpenRun.Stage.PURGING, stage(bench));
    overdue(bench).forSeconds(1);
    assertEquals(BatchState.HELD, bench.phase());
    assertTrue(bench.alarm("pressure too high") != AlarmState.NORMAL);
  }

  @Test
  void anAbortedOpeningKeepsTheLimitOfWhoIsThere() {
    ControlBench bench = belowRoomAlone(TestSteps.open(TestSteps.mass(MASS)));
    answer(bench, Map.of());
    bench.tick(new Request.Abort("Ada"));
    overdue(bench).forSeconds(1);
    assertTrue(bench.alarm("pressure too high") != AlarmState.NORMAL);
  }

  @Test
  void theEmergencyStopEndsEvenTheSweep() {
    ControlBench bench = open();
    bench.set(Channel.EMERGENCY_STOP, 0).tick();
    assertFalse(bench.isOn(Switch.INERT));
  }

  @Test
  void anAbortedBatchDoesNotSweep() {
    ControlBench bench = open();
    bench.tick(new Request.Abort("Ada"));
    bench.tick();
    assertTrue(bench.allOff());
    assertNull(bench.state.question());
  }

  @Test
  void aPauseBeforeTheVesselIsOpenNeedsNoSweep() {
    ControlBench bench = waiting();
    bench.tick(new Request.Pause("Ada"));
    bench.ticks(10);
    assertTrue(bench.allOff());
    bench.tick(new Request.Answer("Ada", bench.state.question().number(), Map.of(), ""));
    assertTrue(bench.refusedLast(), "it must run before the person opens");
    assertTrue(bench.allOff());
  }

  @Test
  void afterClosingTheVesselIsPurgedAsOftenAsAsked() {
    ControlBench bench = open();
    answer(bench, Map.of(MASS, 4.2e-3));
    assertEquals(OpenRun.Stage.PURGING, stage(bench));
    for (int cycle = 0; cycle < 2; cycle++) {
      bench.pressurePa(80_000).ticks(2);
      assertTrue(bench.isOn(Switch.PUMP) && bench.isOn(Switch.VACUUM));
      assertFalse(bench.isOn(Switch.INERT) || bench.isOn(Switch.VENT));
      bench.pressurePa(510).tick();
      assertTrue(bench.isOn(Switch.VACUUM));
      bench.pressurePa(490).ticks(2);
      assertTrue(bench.isOn(Switch.INERT));
      assertFalse(bench.isOn(Switch.PUMP) || bench.isOn(Switch.VACUUM));
      bench.pressurePa(89_990).tick();
      assertTrue(bench.isOn(Switch.INERT));
      assertEquals(0, bench.state.cursor().position());
      bench.pressurePa(90_000).tick();
      assertFalse(bench.isOn(Switch.INERT));
    }
    assertEquals(1, bench.state.cursor().position());
    assertEquals("closed and purged", bench.events(Event.StepEnded.class).get(0).how());
  }

  @Test
  void aHoldInThePurgeEmptiesTheVesselAgainBeforeItGoesOnFilling() {
    ControlBench bench = open();
    answer(bench, Map.of(MASS, 4.2e-3));
    bench.pressurePa(400).ticks(2);
    bench.pressurePa(50_000).tick();
    assertTrue(bench.isOn(Switch.INERT));
    bench.tick(new Request.Pause("Ada"));
    assertTrue(bench.allOff(), "the vessel is closed: no sweep");
    bench.tick(new Request.Resume("Ada"));
    bench.tick();
    assertTrue(bench.isOn(Switch.VACUUM));
    assertFalse(bench.isOn(Switch.INERT));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.04e-3, 0, -4e-3, 40e-3, Double.NaN, Double.POSITIVE_INFINITY})
  void aMassThatCannotBeIsRefused(double massKg) {
    ControlBench bench = open();
    answer(bench, Map.of(MASS, massKg));
    assertTrue(bench.refusedLast());
    assertEquals(OpenRun.Stage.SWEEPING, stage(bench));
    assertEquals(0, bench.events(Event.Weighed.class).size());
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.0401e-3, 4e-3, 39.9e-3})
  void aMassFromAHundredthToTenTimesTheChargeIsTaken(double massKg) {
    ControlBench bench = open();
    answer(bench, Map.of(MASS, massKg));
    assertFalse(bench.refusedLast());
    assertEquals(OpenRun.Stage.PURGING, stage(bench));
    assertEquals(massKg, bench.events(Event.Weighed.class).get(0).massKg().value());
  }

  @Test
  void aMissingMassOrAnotherQuestionsNumberIsRefused() {
    ControlBench bench = open();
    answer(bench, Map.of("another name", 4e-3));
    assertTrue(bench.refusedLast());
    Event.RequestRefused refused = bench.events(Event.RequestRefused.class).get(0);
    assertTrue(refused.why().contains(MASS), refused.why());
    for (int number : new int[] {0, 1, 3}) {
      bench.tick(new Request.Answer("Ada", number, Map.of(MASS, 4e-3), ""));
      assertTrue(bench.refusedLast());
    }
    bench.tick(new Request.Answer("Ada", 2, Map.of(MASS, 4e-3), "grey cake"));
    assertFalse(bench.refusedLast());
    Event.Answered answered = bench.events(Event.Answered.class).get(1);
    assertEquals("mass of solid 4.0000 g; grey cake", answered.answer());
    bench.tick(new Request.Answer("Ada", 2, Map.of(MASS, 4e-3), ""));
    assertTrue(bench.refusedLast(), "it is answered");
  }

  @Test
  void anAskStepWaitsForItsAnswerWithTheHeaterOff() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.ramp(300, 1),
            TestSteps.ask(TestSteps.mass(MASS), TestSteps.remark("colour")),
            TestSteps.ask());
    bench.allAtK(299).start().forSeconds(10);
    assertEquals(1, bench.state.cursor().position());
    assertEquals(ControlState.HEATER_OFF, bench.state.setpointK());
    bench.forSeconds(3600);
    assertTrue(bench.allOff());
    assertEquals(1, bench.events(Event.Asked.class).size(), "it is asked once");
    assertEquals(
        List.of("stop", "abort"),
        mayWithout(bench, "pause", "answer", "checkIn", "checkOut", "handOver"));
    bench.tick(new Request.Answer("Ada", 1, Map.of(MASS, 4.5e-3), "black"));
    assertFalse(bench.refusedLast());
    bench.ticks(2);
    assertEquals(2, bench.state.cursor().position());
    assertEquals("answered", bench.events(Event.StepEnded.class).get(1).how());
  }

  private static List<String> mayWithout(ControlBench bench, String... words) {
    List<String> may = new Report(bench.plan, bench.state).mayAsk();
    for (String word : words) {
      assertTrue(may.contains(word), may.toString());
    }
    return may.stream().filter(word -> !List.of(words).contains(word)).toList();
  }

  @Test
  void aQuestionOutlastsAHoldAndDoesNotRunIntoATimeLimit() {
    ControlBench bench =
        ControlBench.with(
            new tarnish.shared.recipe.Step.Ask(
                TestSteps.limited("Ask", 60), "Is it black?", List.of()),
            TestSteps.ask());
    bench.start().forSeconds(120);
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.set(Channel.EMERGENCY_STOP, 0).tick();
    bench.set(Channel.EMERGENCY_STOP, 1).forSeconds(1);
    assertEquals("Is it black?", bench.state.question().prompt());
    bench.tick(new Request.Answer("Ada", 1, Map.of(), "yes"));
    assertTrue(bench.refusedLast(), "held");
    bench.tick(
        new Request.Reset("Ada", "emergency stop", "by mistake"), new Request.Restart("Ada"));
    bench.tick(new Request.Answer("Ada", 1, Map.of(), "yes"));
    assertFalse(bench.refusedLast());
    bench.ticks(2);
    assertEquals(1, bench.state.cursor().position());
    assertEquals(2, bench.events(Event.Asked.class).size(), "not asked again after the hold");
  }

  @Test
  void stoppingForgetsTheQuestion() {
    ControlBench bench = ControlBench.with(TestSteps.ask()).start().ticks(2);
    assertEquals(1, bench.state.question().number());
    bench.tick(new Request.Restart("Ada"));
    assertEquals(1, bench.state.question().number(), "a refusal forgets nothing");
    bench.tick(new Request.Stop("Ada"));
    assertNull(bench.state.question());
  }
}
