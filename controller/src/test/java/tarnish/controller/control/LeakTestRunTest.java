package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

class LeakTestRunTest {
  private static final double SETTLE_S = 60;
  private static final double WATCH_S = 600;
  private static final double RISE_MAX_PA_PER_S = 0.1;

  private static ControlBench watched(DoubleUnaryOperator pressurePaAfterS) {
    return watched(SETTLE_S, pressurePaAfterS, s -> 295);
  }

  private static ControlBench watched(
      double settleS, DoubleUnaryOperator pressurePaAfterS, DoubleUnaryOperator temperatureK) {
    TestRig rig = new TestRig();
    rig.pressureResolutionPa = 1;
    ControlBench bench =
        new ControlBench(
            rig.build(),
            TestSteps.recipe(
                TestSteps.leakTest(settleS, WATCH_S, RISE_MAX_PA_PER_S), TestSteps.ask()));
    bench.pressurePa(pressurePaAfterS.applyAsDouble(0)).start();
    for (double s = 0.25; s <= settleS + WATCH_S + 1; s += 0.25) {
      bench.allAtK(temperatureK.applyAsDouble(s));
      bench.pressurePa(pressurePaAfterS.applyAsDouble(s)).tick();
      if (bench.state.cursor().position() == 0 && bench.phase() == BatchState.RUNNING) {
        assertTrue(bench.allOff(), "every valve is shut");
      }
    }
    return bench;
  }

  private static Event.LeakTested result(ControlBench bench) {
    assertEquals(1, bench.events(Event.LeakTested.class).size());
    return bench.events(Event.LeakTested.class).get(0);
  }

  @Test
  void aStraightRiseAboveTheLimitIsALeakAndHoldsTheBatch() {
    ControlBench bench = watched(s -> 100 + 0.12 * s);
    assertFalse(result(bench).passed());
    assertEquals(0.12, result(bench).risePaPerS(), 0.002);
    assertEquals(0.12, result(bench).firstHalfPaPerS(), 0.002);
    assertEquals(BatchState.HELD, bench.phase());
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm(InterlockTable.LEAK_TEST_FAILED));
    assertFalse(bench.state.leak().tested());
    bench.tick(new Request.Reset("Ada", InterlockTable.LEAK_TEST_FAILED, "clamp was loose"));
    bench.tick(new Request.Restart("Ada"));
    bench.forSeconds(SETTLE_S + WATCH_S + 1);
    assertEquals(2, bench.events(Event.LeakTested.class).size(), "the test is done again");
    assertTrue(bench.events(Event.LeakTested.class).get(1).passed());
    long begun =
        bench.events(Event.StepStarted.class).stream().filter(e -> e.position() == 0).count();
    assertEquals(1, begun, "it is the same step");
  }

  /** What was watched before counts for nothing, so its time does not count against the step. */
  @Test
  void aPauseShortlyBeforeItsEndDoesNotMakeItOverdue() {
    Step.LeakTest limited =
        new Step.LeakTest(
            TestSteps.limited("Leak test", 2 * (SETTLE_S + WATCH_S)),
            SETTLE_S,
            WATCH_S,
            RISE_MAX_PA_PER_S);
    ControlBench paused =
        new ControlBench(new TestRig().build(), TestSteps.recipe(limited, TestSteps.ask()));
    paused.pressurePa(100).start();
    for (int i = 0; i < 4; i++) {
      paused.forSeconds(SETTLE_S + WATCH_S - 10);
      paused.tick(new Request.Pause("Ada"));
      paused.forSeconds(30);
      paused.tick(new Request.Resume("Ada"));
      assertEquals(BatchState.RUNNING, paused.phase());
    }
    paused.forSeconds(SETTLE_S + WATCH_S + 5);
    assertEquals(1, paused.events(Event.LeakTested.class).size());
    assertEquals(1, paused.state.cursor().position());
  }

  @Test
  void aStraightRiseBelowTheLimitPassesAndIsRemembered() {
    ControlBench bench = watched(s -> 100 + 0.08 * s);
    assertTrue(result(bench).passed());
    assertEquals(1, bench.state.cursor().position());
    assertTrue(bench.state.leak().tested());
    assertEquals(0.08, result(bench).risePaPerS(), 0.002);
  }

  /** Outgassing levels off (common practice); what counts is the second half of the watch. */
  @Test
  void aRiseThatLevelsOffIsNoLeak() {
    ControlBench bench = watched(s -> 100 + 60 * (1 - StrictMath.exp(-s / 150)));
    assertTrue(result(bench).firstHalfPaPerS() > RISE_MAX_PA_PER_S, "steep at first");
    assertTrue(result(bench).passed());
    assertTrue(result(bench).risePaPerS() > 0 && result(bench).risePaPerS() < 0.06);
  }

  @Test
  void whatHappensWhileItSettlesDoesNotCount() {
    ControlBench bench = watched(s -> 100 + 5 * StrictMath.min(s, SETTLE_S - 1));
    assertTrue(result(bench).passed());
    assertEquals(0, result(bench).risePaPerS(), 1e-6);
  }

  @Test
  void warmingUpIsNotTakenForALeak() {
    DoubleUnaryOperator warming = s -> 295 + s / 66;
    DoubleUnaryOperator sealed =
        s ->
            50_000
                * (TestRig.HOT_M3 / 295 + TestRig.COLD_M3 / 295)
                / (TestRig.HOT_M3 / warming.applyAsDouble(s) + TestRig.COLD_M3 / 295);
    ControlBench bench = watched(SETTLE_S, sealed, warming);
    double naive = (sealed.applyAsDouble(660) - sealed.applyAsDouble(360)) / 300;
    assertTrue(naive > 10 * RISE_MAX_PA_PER_S, "uncorrected it would look like a leak: " + naive);
    assertTrue(result(bench).passed());
    assertEquals(0, result(bench).risePaPerS(), 0.02);
  }

  @Test
  void aLeakTestWithoutSettlingTimeIsJudgedTheSame() {
    ControlBench tight = watched(0, s -> 100 + 0.08 * s, s -> 295);
    assertTrue(result(tight).passed());
    assertEquals(0.08, result(tight).risePaPerS(), 0.002);
    ControlBench leaking = watched(0, s -> 100 + 0.12 * s, s -> 295);
    assertFalse(result(leaking).passed());
  }

  @Test
  void noiseDoesNotDecide() {
    SplittableRandom random = new SplittableRandom(8);
    int passed = 0;
    for (int i = 0; i < 20; i++) {
      ControlBench bench =
          watched(s -> 100 + 0.09 * s + StrictMath.round(10 * random.nextDouble(-1.7, 1.7)));
      passed += result(bench).passed() ? 1 : 0;
    }
    assertEquals(20, passed);
  }

  @Test
  void inLeakFallsWithTheDifferenceToTheRoom() {
    LeakRate leak = new LeakRate(2e-9, 1e-9, true);
    assertEquals(2e-9, leak.molPerS(0, 101_300), 1e-20);
    assertEquals(1e-9, leak.molPerS(50_650, 101_300), 1e-20);
    assertEquals(0, leak.molPerS(101_300, 101_300), 1e-20);
    assertEquals(-1e-9, leak.molPerS(151_950, 101_300), 1e-20);
  }

  @Test
  void aFallingPressureGivesNoNegativeLeak() {
    ControlBench bench = watched(s -> 1000 - 0.1 * s);
    assertTrue(result(bench).passed());
    assertEquals(0, bench.state.leak().molPerSAtVacuum());
  }

  @Test
  void itSaysWhatItIsWaitingFor() {
    ControlBench bench = ControlBench.with(TestSteps.leakTest(60, 600, 0.1)).start();
    assertTrue(bench.state.run().doing().contains("settle"));
    bench.set(Channel.VESSEL_PRESSURE, 100).forSeconds(360);
    assertTrue(bench.state.run().doing().contains("5 min"), bench.state.run().doing());
  }

  @Test
  void aPausedLeakTestBeginsAnew() {
    ControlBench bench = ControlBench.with(TestSteps.leakTest(60, 600, 0.1)).start();
    bench.forSeconds(500);
    bench.tick(new Request.Pause("Ada"));
    bench.tick(new Request.Resume("Ada"));
    assertTrue(bench.state.run().doing().contains("settle"), bench.state.run().doing());
    assertEquals(1, bench.events(Event.StepStarted.class).size());
  }

  private static final double PER_PA = (TestRig.HOT_M3 + TestRig.COLD_M3) / 295 / 8.31446261815324;

  /**
   * Noise of a slope: 10 Pa in each reading, 300 readings in each eighth of 75 s, over three of
   * them.
   */
  private static final double NOISE_PA_PER_S = 10 * Math.sqrt(2 / 300.0) / 225;

  @Test
  void whatIsALeakOfTheRiseIsToldByItsShapeAndItsNoise() {
    ControlBench bench = watched(s -> 100 + 60 * (1 - StrictMath.exp(-s / 250)));
    Event.LeakTested tested = result(bench);
    LeakShape shape =
        LeakShape.of(tested.firstHalfPaPerS(), tested.risePaPerS(), NOISE_PA_PER_S, 600);
    assertTrue(shape.share() < 0.5, shape::toString);
    LeakRate leak = bench.state.leak();
    double rise = tested.risePaPerS();
    assertEquals(shape.share() * rise * PER_PA, leak.molPerSAtVacuum(), 1e-6 * PER_PA);
    assertEquals(
        shape.uncertaintyPaPerS(rise, NOISE_PA_PER_S) * PER_PA,
        leak.uncertaintyMolPerS(),
        1e-6 * PER_PA);
  }

  @Test
  void aStraightRiseIsALeakForTheGreaterPart() {
    LeakRate leak = watched(s -> 100 + 0.08 * s).state.leak();
    assertTrue(leak.molPerSAtVacuum() > 0.5 * 0.08 * PER_PA, leak::toString);
    assertTrue(leak.molPerSAtVacuum() + 2 * leak.uncertaintyMolPerS() > 0.08 * PER_PA);
  }

  @Test
  void theUncertaintyOfALeakFallsWithTheDifferenceToTheRoomOnEitherSide() {
    LeakRate leak = new LeakRate(2e-9, 1e-9, true);
    assertEquals(1e-9, leak.uncertaintyMolPerS(0, 101_300), 1e-20);
    assertEquals(0.5e-9, leak.uncertaintyMolPerS(50_650, 101_300), 1e-20);
    assertEquals(0.5e-9, leak.uncertaintyMolPerS(151_950, 101_300), 1e-20);
  }
}
