package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.Limits;

class StepChangeTest {
  private static final double AT_K = 500;

  private static final Step.Soak LIMITED =
      new Step.Soak(TestSteps.limited("Soak", 30_000), AT_K, 3600, 3);

  /** Soaking at step 2 of 5, a person there. */
  private static ControlBench soaking() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.ramp(AT_K, 0.05),
            LIMITED,
            TestSteps.ramp(600, 0.05),
            TestSteps.soak(600, 7200, 3),
            TestSteps.cool(313.15));
    bench.allAtK(AT_K).start();
    while (!(bench.state.run() instanceof SoakRun)) {
      bench.tick();
    }
    bench.tick(new Request.CheckIn("Ada", 4));
    return bench.forSeconds(60);
  }

  private static Request.ChangeStep change(int position, String word, double value) {
    return new Request.ChangeStep("Ada", position, Map.of(word, value), "because", "rehearsed");
  }

  private static Step step(ControlBench bench, int position) {
    return ((Instruction.Do) bench.state.program().at(position)).step();
  }

  private static String refusal(ControlBench bench) {
    List<Event.RequestRefused> refused = bench.events(Event.RequestRefused.class);
    return refused.isEmpty() ? "" : refused.get(refused.size() - 1).why();
  }

  @Test
  void aSoakToComeCanBeMadeLongerAndHotterAndTheRecordSaysSo() {
    ControlBench bench = soaking();
    bench.tick(
        new Request.ChangeStep(
            "Ada", 3, Map.of("for", 10_800.0, "at", 610.0), "slow today", "complete after 9 h"));
    Step.Soak soak = (Step.Soak) step(bench, 3);
    assertEquals(10_800, soak.durationS());
    assertEquals(610, soak.atK());
    assertEquals(3, soak.bandK());
    String told = bench.events(Event.StepChanged.class).get(0).sentence();
    assertTrue(told.contains("Ada changed step 4"), told);
    assertTrue(told.contains("2 h → 3 h"), told);
    assertTrue(told.contains("slow today"), told);
    assertTrue(told.contains("complete after 9 h"), told);
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void aChangedRampRateIsAlsoTheRateAtWhichTheNextSoakIsComeBackTo() {
    ControlBench bench = soaking();
    bench.tick(change(2, "rate", 0.02));
    assertEquals(0.02, ((Instruction.Do) bench.state.program().at(3)).rampRateKPerS());
    assertEquals(0.05, ((Instruction.Do) bench.state.program().at(1)).rampRateKPerS());
  }

  @Test
  void theSoakUnderWayGoesOnWithWhatItHasEarnedWhenItIsMadeLonger() {
    ControlBench bench = soaking();
    double earned = ((SoakRun) bench.state.run()).inBandS();
    assertTrue(earned >= 60);
    bench.tick(change(1, "for", 3700));
    SoakRun run = (SoakRun) bench.state.run();
    assertEquals(3700, run.step().durationS());
    assertEquals(earned + ControlBench.TICK_S, run.inBandS(), 1e-9);
    bench.forSeconds(3600);
    assertTrue(bench.state.run() instanceof SoakRun, "still soaking");
    bench.forSeconds(60);
    assertEquals(2, bench.state.stepPosition());
    assertEquals(3700, bench.state.soaks().get(0).requiredS());
  }

  @Test
  void itsTimeLimitKeepsItsMargin() {
    ControlBench bench = soaking();
    bench.tick(change(1, "for", 40_000));
    assertEquals(OptionalDouble.of(30_000 + 40_000 - 3600), step(bench, 1).common().timeLimitS());
  }

  /** Heating takes (T - 293.15 K)/rate, and the reader of recipes allows twice that. */
  @Test
  void aSlowerRampGetsTheTimeItTakesAndAFasterOneKeepsItsLimit() {
    Step.Ramp ramp = new Step.Ramp(TestSteps.limited("Ramp", 10_000), 593.15, 0.05);
    Step.Ramp slower = (Step.Ramp) changed(ramp, "rate", 0.025);
    assertEquals(10_000 + 12_000, slower.common().timeLimitS().getAsDouble(), 1e-6);
    Step.Ramp hotter = (Step.Ramp) changed(ramp, "to", 693.15);
    assertEquals(10_000 + 4_000, hotter.common().timeLimitS().getAsDouble(), 1e-6);
    Step.Ramp faster = (Step.Ramp) changed(ramp, "rate", 0.1);
    assertEquals(10_000, faster.common().timeLimitS().getAsDouble());
  }

  @Test
  void aCoolingStaysACoolingWithItsRateOrWithTheHeaterOff() {
    Step.Cool free = (Step.Cool) changed(TestSteps.cool(313.15), "to", 323.15);
    assertEquals(323.15, free.toK());
    assertEquals(OptionalDouble.empty(), free.rateKPerS());
    Step.Cool slow = new Step.Cool(TestSteps.unattended("Cool"), 313.15, OptionalDouble.of(0.05));
    Step.Cool slower = (Step.Cool) changed(slow, "rate", 0.02);
    assertEquals(OptionalDouble.of(0.02), slower.rateKPerS());
    assertEquals(313.15, slower.toK());
  }

  @Test
  void aHeldPressureCanBeChangedAndStaysWhereAnotherNumberChanges() {
    Step.Soak held = new Step.Soak(TestSteps.holding("Held", 95_000), 600, 3600, 2);
    assertEquals(
        OptionalDouble.of(90_000), changed(held, "hold", 90_000).common().holdPressurePa());
    assertEquals(OptionalDouble.of(95_000), changed(held, "at", 610).common().holdPressurePa());
  }

  @Test
  void theTitleNamesTheNumberThatChangedAndARefusalThoseThatMay() {
    assertEquals("Soak, changed: for 3 h", changed(LIMITED, "for", 10_800).common().title());
    ControlBench bench = soaking();
    bench.tick(change(3, "band", 9));
    assertEquals("Of this step only at, for may change.", refusal(bench));
  }

  /** The step as it is after a change before it has begun. */
  private static Step changed(Step step, String word, double value) {
    ControlBench bench = soaking();
    TickWork work = new TickWork(bench.plan, bench.state);
    work.program = bench.state.program().with(4, step);
    StepChange change = StepChange.of(change(4, word, value), bench.plan, work.state());
    assertEquals("", change.refusal());
    return ((Instruction.Do) change.program().at(4)).step();
  }

  @Test
  void theSoakUnderWayCanNotBeShortenedOrMoved() {
    ControlBench bench = soaking();
    for (Request.ChangeStep each :
        List.of(change(1, "for", 3600 - 1), change(1, "at", 480), change(1, "for", 3600))) {
      bench.tick(each);
      assertTrue(refusal(bench).contains("only be made longer, or be skipped"), each.toString());
      assertSame(LIMITED, step(bench, 1));
    }
  }

  @Test
  void aSkippedSoakKeepsWhatItEarnedAndTheNextStepBegins() {
    ControlBench bench = soaking();
    double earned = ((SoakRun) bench.state.run()).inBandS();
    bench.tick(new Request.SkipSoak("Ada", 1, "grey all through", "complete after 5 h"));
    assertEquals(2, bench.state.stepPosition());
    SoakRecord soak = bench.state.soaks().get(0);
    assertEquals(3600, soak.requiredS());
    assertEquals(earned, soak.inBandS(), ControlBench.TICK_S);
    assertTrue(
        bench.events(Event.StepEnded.class).stream().anyMatch(e -> e.how().startsWith("skipped")));
    assertTrue(bench.state.run() instanceof RampRun);
  }

  @Test
  void aSkippedSoakNeedsAPersonAReasonAndThatSoakUnderWay() {
    ControlBench bench = soaking();
    bench.tick(new Request.SkipSoak("Ada", 1, " ", ""));
    assertTrue(refusal(bench).contains("reason"));
    bench.tick(new Request.SkipSoak("Ada", 3, "because", ""));
    assertTrue(refusal(bench).contains("not the step under way"));
    bench.tick(new Request.CheckOut("Ada"));
    bench.tick(new Request.SkipSoak("Ada", 1, "because", ""));
    assertTrue(refusal(bench).toLowerCase(java.util.Locale.ROOT).contains("check in"));
    assertEquals(1, bench.state.stepPosition());
  }

  @Test
  void aPausedSoakCanBeSkippedAndTheBatchStaysPaused() {
    ControlBench bench = soaking();
    bench.tick(new Request.Pause("Ada"));
    bench.ticks(3);
    bench.tick(new Request.SkipSoak("Ada", 1, "because", ""));
    assertEquals(BatchState.PAUSED, bench.phase());
    assertNull(bench.state.run());
    bench.tick(new Request.Resume("Ada"));
    bench.tick();
    assertTrue(bench.state.run() instanceof RampRun);
  }

  @Test
  void aStepThatHasBegunStaysAsItIs() {
    ControlBench bench = soaking();
    bench.tick(change(0, "rate", 0.01));
    assertEquals("Step 1 has begun; only steps to come may change.", refusal(bench));
    List<Event.RequestRefused> refused = bench.events(Event.RequestRefused.class);
    assertEquals("change of step 1", refused.get(refused.size() - 1).what());
    assertEquals(0.05, ((Step.Ramp) step(bench, 0)).rateKPerS());
  }

  @Test
  void theNextStepOfAPausedBatchHasNotBegunWhenTheSoakBeforeItWasSkipped() {
    ControlBench bench = soaking();
    bench.tick(new Request.Pause("Ada"));
    bench.ticks(3);
    bench.tick(new Request.SkipSoak("Ada", 1, "because", ""));
    bench.tick(change(1, "for", 9000));
    assertEquals("Step 2 has begun; only steps to come may change.", refusal(bench));
    bench.tick(change(2, "rate", 0.02));
    assertFalse(bench.refusedLast(), refusal(bench));
    assertEquals(0.02, ((Step.Ramp) step(bench, 2)).rateKPerS());
  }

  @Test
  void aChangeNeedsAReasonForTheRecord() {
    ControlBench bench = soaking();
    bench.tick(new Request.ChangeStep("Ada", 3, Map.of("for", 9000.0), " ", ""));
    assertEquals("A change needs a reason for the record.", refusal(bench));
    assertEquals(List.of(), bench.events(Event.StepChanged.class));
  }

  @Test
  void aHeldBatchSkipsNoSoak() {
    ControlBench bench = soaking();
    bench.tick(new Request.ShellTrouble("x", InterlockTable.JOURNAL_NOT_WRITABLE, ""));
    bench.ticks(3);
    assertEquals(BatchState.HELD, bench.phase());
    bench.tick(new Request.SkipSoak("Ada", 1, "because", ""));
    assertEquals("The batch is held.", refusal(bench));
    assertEquals(1, bench.state.stepPosition());
  }

  @Test
  void aTriedOutChangeGivesTheStateItWouldLeadToAndLeavesTheBatchAlone() {
    ControlBench bench = soaking();
    ControlState live = bench.state;
    ControlState tried = StepChange.apply(change(3, "for", 9000), bench.plan, live);
    Step.Soak longer = (Step.Soak) ((Instruction.Do) tried.program().at(3)).step();
    assertEquals(9000, longer.durationS());
    assertEquals(7200, ((Step.Soak) step(bench, 3)).durationS());
    ControlState refused = StepChange.apply(change(3, "at", 840), bench.plan, live);
    assertSame(live.program(), refused.program());
  }

  /** Planned pulses are cut so that the sample warms no further than that. */
  @Test
  void aChangedDoseKeepsTheRiseItWasPlannedFor() {
    Step.Dose planned =
        new Step.Dose(TestSteps.unattended("Dose"), 1500, 95_000, 50, 0.5, 0.5, 60, 1800)
            .planned(1500, 5);
    Step.Dose changed = (Step.Dose) changed(planned, "pulse", 1800);
    assertEquals(1800, changed.pulsePa());
    assertEquals(OptionalDouble.of(5), changed.riseMaxK());
  }

  @Test
  void bandsTimeLimitsAndCountsAreNotForChanging() {
    ControlBench bench = soaking();
    for (String word : List.of("band", "time limit", "who", "at most", "title")) {
      bench.tick(change(3, word, 100));
      assertTrue(bench.refusedLast(), word);
    }
    assertEquals(List.of(), bench.events(Event.StepChanged.class));
  }

  @Test
  void numbersBeyondTheRigAreRefusedWithTheLimit() {
    ControlBench bench = soaking();
    bench.tick(change(3, "at", 840));
    assertTrue(refusal(bench).contains("560 °C"), refusal(bench));
    bench.tick(change(2, "rate", 0.11));
    assertTrue(refusal(bench).contains("6 K/min"), refusal(bench));
    for (double wrong : new double[] {0, -1, Double.NaN, Double.POSITIVE_INFINITY}) {
      bench.tick(change(3, "for", wrong));
      assertEquals("'for' must be a number above 0.", refusal(bench), "for " + wrong);
    }
    assertEquals(List.of(), bench.events(Event.StepChanged.class));
  }

  @Test
  void withoutABatchNothingChanges() {
    ControlBench bench = ControlBench.with(TestSteps.soak(AT_K, 3600, 3));
    bench.tick(change(0, "for", 7200));
    assertTrue(refusal(bench).contains("No batch"));
  }

  @Test
  void theSameTitleIsNotChangedTwice() {
    ControlBench bench = soaking();
    bench.tick(change(3, "for", 9000));
    bench.tick(change(3, "at", 605));
    String title = step(bench, 3).common().title();
    assertEquals(title.indexOf("changed"), title.lastIndexOf("changed"), title);
    assertTrue(title.contains("331.85"), title);
  }

  /** Whatever is asked for: a limit of the rig is never passed, a band or limit never widened. */
  @Test
  void noChangeEverPassesALimit() {
    long seed = Long.getLong("seed", 7L);
    SplittableRandom random = new SplittableRandom(seed);
    ControlBench bench = soaking();
    Limits limits = bench.plan.rig().unattended();
    Step.Soak holding = new Step.Soak(TestSteps.holding("Held", 95_000), 600, 3600, 2);
    Step.Dose dose =
        new Step.Dose(TestSteps.unattended("Dose"), 1500, 95_000, 50, 0.5, 0.5, 60, 1800);
    Program program = bench.state.program().with(3, holding).with(4, dose);
    TickWork work = new TickWork(bench.plan, bench.state);
    work.program = program;
    ControlState state = work.state();
    List<String> words = List.of("to", "at", "for", "rate", "hold", "pulse", "band");
    int taken = 0;
    for (int i = 0; i < 20_000; i++) {
      int position = random.nextInt(-1, 7);
      double value = StrictMath.pow(10, random.nextDouble(-4, 7));
      Request.ChangeStep wanted =
          new Request.ChangeStep(
              "Ada", position, Map.of(words.get(random.nextInt(7)), value), "r", "");
      StepChange change = StepChange.of(wanted, bench.plan, state);
      if (!change.refusal().isEmpty()) {
        assertSame(state.program(), change.program());
        continue;
      }
      taken++;
      Step step = ((Instruction.Do) change.program().at(position)).step();
      Step before = ((Instruction.Do) state.program().at(position)).step();
      assertTrue(within(step, limits), "seed " + seed + ": " + wanted + " gave " + step);
      assertEquals(before.common().presence(), step.common().presence());
      assertEquals(StepCommon.Presence.UNATTENDED, step.common().presence());
      if (step instanceof Step.Soak soak) {
        assertEquals(((Step.Soak) before).bandK(), soak.bandK());
      }
      assertFalse(position < state.stepPosition());
    }
    assertTrue(taken > 500, "only " + taken + " were taken, seed " + seed);
  }

  private static boolean within(Step step, Limits limits) {
    double hold = step.common().holdPressurePa().orElse(0);
    boolean sound = hold <= limits.pressureMaxPa();
    if (step instanceof Step.Ramp ramp) {
      return sound
          && ramp.toK() <= limits.sampleMaxK()
          && ramp.rateKPerS() <= limits.rampMaxKPerS();
    } else if (step instanceof Step.Soak soak) {
      return sound && soak.atK() <= limits.sampleMaxK() && soak.durationS() > 0;
    } else if (step instanceof Step.Cool cool) {
      return sound && cool.toK() <= limits.sampleMaxK();
    }
    Step.Dose dose = (Step.Dose) step;
    return dose.pulsePa() <= limits.pulseMaxPa()
        && dose.toPa() + dose.pulsePa() <= limits.pressureMaxPa()
        && dose.pulsePa() < dose.toPa();
  }
}
