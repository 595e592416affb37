package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;

class WordsForThePersonTest {
  private static Narrator told(ControlBench bench) {
    return Narrator.of(bench.plan, bench.state);
  }

  private static ControlBench in(BatchState phase, String why) {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1), TestSteps.ask());
    TickWork work = new TickWork(bench.plan, bench.state);
    work.phase = phase;
    work.phaseWhy = why;
    bench.state = work.state();
    return bench;
  }

  @ParameterizedTest
  @CsvSource({
    "IDLE, Idle:, Choose a recipe and start.",
    "PAUSING, Paused:, Next: Ask.",
    "PAUSED, Paused:, Resume when you are ready; it ramps back at the recipe's rate.",
    "HOLDING, Held in the safe state:, Restart or stop.",
    "HELD, Held in the safe state:, Restart or stop.",
    "RESTARTING, Going on after the hold., Next: Ask.",
    "STOPPING, Stopping:, Next: Ask.",
    "STOPPED, Stopped:, The record is kept; a new batch may be started.",
    "ABORTING, Aborted:, Next: Ask.",
    "ABORTED, Aborted:, The record is kept; a new batch may be started.",
    "COMPLETE, Complete:, The record is kept; a new batch may be started.",
  })
  void everyStateIsTold(BatchState phase, String begins, String next) {
    Narrator narrator = told(in(phase, "the emergency stop was pressed"));
    assertTrue(narrator.sentence().startsWith(begins), narrator.sentence());
    assertEquals("The emergency stop was pressed.", narrator.why());
    assertEquals(next, narrator.next());
  }

  @Test
  void aReasonIsNotEndedTwiceAndMayBeMissing() {
    assertEquals("Already a sentence.", told(in(BatchState.HELD, "already a sentence.")).why());
    assertEquals("", told(in(BatchState.HELD, "")).why());
  }

  @Test
  void aRunningStepIsToldWithItsPressureAndItsNextStep() {
    Step.Ramp kept = new Step.Ramp(TestSteps.holding("Warm up", 60_000), 400.15, 0.1);
    ControlBench bench = ControlBench.with(kept, TestSteps.soak(400.15, 7200, 3));
    bench.pressurePa(60_000).start();
    Narrator narrator = told(bench);
    assertEquals(
        "Ramping to 127.0 °C at 6.0 K/min, oxygen kept at 600.0 mbar.", narrator.sentence());
    assertEquals("Step 1 of the recipe.", narrator.why());
    assertEquals("Next: Soak.", narrator.next());

    bench.allAtK(400.15).forSeconds(1200);
    String soaking = told(bench).sentence();
    assertTrue(soaking.startsWith("Soaking at 127.0 °C: "), soaking);
    assertTrue(soaking.endsWith(" of 2 h at temperature."), soaking);
    assertEquals("Step 2 of the recipe.", told(bench).why());
    assertEquals("Next: the end of the recipe.", told(bench).next());
  }

  @Test
  void aHoldByATripPointsToTheAlarms() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1)).start();
    bench.set(Channel.EMERGENCY_STOP, 0).tick();
    assertTrue(told(bench).next().startsWith("See the alarms"));
    assertEquals("The emergency stop was pressed, or its circuit is broken.", told(bench).why());
  }

  @Test
  void anOpenQuestionComesFirst() {
    ControlBench bench = ControlBench.with(TestSteps.ask()).start().ticks(2);
    assertEquals("A person is needed: check in and answer the open question.", told(bench).next());
    assertEquals("Waiting for a person: Weigh the product.", told(bench).sentence());
  }

  @Test
  void betweenTwoStepsTheNextOneIsTold() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 0.5, 5), TestSteps.ask());
    bench.start().tick();
    assertEquals("Going to the next step.", told(bench).sentence());
  }

  @Test
  void everyStageOfAnOpeningIsTold() {
    for (OpenRun.Stage stage : OpenRun.Stage.values()) {
      StepRun purge = BackfillRun.begin(Step.Gas.INERT, 90_000, 500, 2);
      String doing = new OpenRun(TestSteps.open(), stage, purge).doing();
      String word =
          switch (stage) {
            case COOLING -> "cooling below 40.0 °C";
            case RELIEVING -> "room pressure";
            case WAITING -> "waiting for a person";
            case SWEEPING -> "sweeping";
            case PURGING -> "purging after closing: pumping down to 5.0 mbar";
          };
      assertTrue(doing.contains(word), doing);
    }
    assertEquals("cooling to 77.0 °C", new CoolRun(TestSteps.cool(350.15)).doing());
    assertEquals("pumping down to 1.0 mbar", EvacuateRun.begin(100).doing());
  }

  @Test
  void everyEventIsASentence() {
    Estimate mass = new Estimate(4.5e-3, 3e-6);
    Map<Event, String> sentences =
        Map.ofEntries(
            Map.entry(
                new Event.StateChanged(BatchState.RUNNING, BatchState.PAUSING, "paused by Ada"),
                "Batch running → pausing: paused by Ada"),
            Map.entry(new Event.StepStarted(2, "Warm up"), "Step 3 begins: Warm up"),
            Map.entry(new Event.StepEnded(2, "Warm up", "there"), "Step 3 ends (Warm up): there"),
            Map.entry(
                new Event.PulseGiven(4, 10_000, 12_000, new Estimate(2e-4, 2e-6)),
                "Oxygen pulse 4: 100.0 mbar → 120.0 mbar, (0.2000 ± 0.0020) mmol admitted"),
            Map.entry(
                new Event.LeakTested(0.1, 0.2, true),
                "Leak test passed: rise 0.060 mbar/min in the second half, 0.120 mbar/min in the"
                    + " first"),
            Map.entry(
                new Event.LeakTested(0.1, 0.2, false),
                "Leak test failed: rise 0.060 mbar/min in the second half, 0.120 mbar/min in the"
                    + " first"),
            Map.entry(
                new Event.SoakEarned(400.15, 3600), "Soak at 127.0 °C done: 1 h within its band"),
            Map.entry(new Event.Asked(1, "Weigh it"), "Asked: Weigh it"),
            Map.entry(new Event.Answered(1, "Ada", "done"), "Ada answered: done"),
            Map.entry(
                new Event.Weighed(mass, new Estimate(0.5, 0.01)),
                "Weighed (4.5000 ± 0.0030) g: 0.500 ± 0.010 O per formula unit by all witnesses"),
            Map.entry(
                new Event.AlarmRaised("door open", "It is.", true), "Alarm (first out): It is."),
            Map.entry(new Event.AlarmRaised("door open", "It is.", false), "Alarm: It is."),
            Map.entry(
                new Event.AlarmChanged("door open", AlarmState.ACKNOWLEDGED, "by Ada"),
                "Alarm 'door open' is acknowledged: by Ada"),
            Map.entry(new Event.RequestDone("Ada", "start"), "Ada: start"),
            Map.entry(
                new Event.RequestRefused("Ada", "start", "It runs."),
                "Refused to Ada: start. It runs."),
            Map.entry(new Event.Advisory("Look."), "Look."));
    sentences.forEach((event, sentence) -> assertEquals(sentence, event.sentence()));
    assertEquals("StepStarted", new Event.StepStarted(2, "Warm up").kind());
  }

  @Test
  void valuesComeInTheUnitOfTheirKind() {
    assertEquals("127.0 °C", Words.value(Channel.SAMPLE_TEMPERATURE, 400.15));
    assertEquals("600.0 mbar", Words.value(Channel.VESSEL_PRESSURE, 60_000));
    assertEquals("23.5 %", Words.value(Channel.ROOM_OXYGEN, 0.235));
    assertEquals("closed", Words.value(Channel.DOOR, 1));
    assertEquals("open", Words.value(Channel.DOOR, 0));
    assertEquals("done", Words.answer(new Request.Answer("Ada", 1, Map.of(), " ")));
  }

  @Test
  void theTableTellsItsLimits() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1));
    Map<String, String> limits = new java.util.HashMap<>();
    new Report(bench.plan, bench.state).interlocks().forEach(r -> limits.put(r.id(), r.limit()));
    assertEquals("above 560.0 °C", limits.get("sample too hot"));
    assertEquals("above 650.0 °C", limits.get("oven too hot"));
    assertEquals("above 1060.0 mbar", limits.get("pressure too high"));
    assertEquals("above 23.5 %", limits.get("room oxygen high"));
    assertEquals("no believable value", limits.get("vessel pressure lost"));
    assertEquals("circuit open", limits.get("emergency stop"));
    assertEquals("tick later than 2 s", limits.get("loop overrun"));
    assertEquals("step longer than its time limit", limits.get("step overdue"));
  }

  @Test
  void theRecipesLinesKnowWhatIsDoneAndWhatIsToCome() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.soak(295, 0.5, 5),
            TestSteps.repeat(2, new RepeatUntil.CountOnly(), TestSteps.soak(295, 100, 5)),
            TestSteps.ask());
    assertEquals(
        List.of("to come", "to come", "to come", "to come"),
        new Report(bench.plan, bench.state).steps().stream().map(s -> s.where()).toList());
    bench.start().forSeconds(5);
    List<Report.StepLine> lines = new Report(bench.plan, bench.state).steps();
    assertEquals(
        List.of("done", "done", "now", "to come"),
        lines.stream().map(Report.StepLine::where).toList());
    assertEquals(List.of(0, 0, 1, 0), lines.stream().map(Report.StepLine::depth).toList());
    assertEquals(List.of(1, 2, 3, 5), lines.stream().map(Report.StepLine::number).toList());
    assertTrue(lines.get(2).doing().startsWith("soaking"));
    assertTrue(lines.get(0).doing().isEmpty());
    assertFalse(new Report(bench.plan, bench.state).soaksToCome().stream().findAny().isPresent());
    assertEquals(2, new Report(bench.plan, bench.state).soaks().size());
  }

  @Test
  void soaksToComeAreThoseAfterThePresentStep() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.ramp(400, 0.1), TestSteps.soak(400, 60, 3), TestSteps.soak(400, 90, 3));
    bench.allAtK(399).start();
    assertEquals(
        List.of(new SoakRecord(1, 400, 60, 0), new SoakRecord(2, 400, 90, 0)),
        new Report(bench.plan, bench.state).soaksToCome());
    bench.allAtK(400).forSeconds(20);
    assertEquals(
        List.of(new SoakRecord(2, 400, 90, 0)), new Report(bench.plan, bench.state).soaksToCome());
  }

  @Test
  void theTopSoakIsFoundInsideRepeats() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.soak(400, 60, 3),
            TestSteps.repeat(2, new RepeatUntil.CountOnly(), TestSteps.soak(450, 60, 3)));
    assertEquals(450, bench.plan.topSoakK());
    assertEquals(0, ControlBench.with(TestSteps.ask()).plan.topSoakK());
    assertEquals(10, bench.plan.gaugeNoisePa());
  }

  @Test
  void aTimeAtTemperatureIsCutAndNotRounded() {
    assertEquals("1 h 37 min", Words.durationSoFar(3600 + 37 * 60 + 59.75));
    assertEquals(Words.duration(59), Words.durationSoFar(59.75));
    assertEquals(Words.duration(86_400 + 3600), Words.durationSoFar(86_400 + 2 * 3600 - 1));
    assertEquals(Words.duration(3600), Words.durationSoFar(3600));
  }
}
