package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

/** The example procedural states of IEC 61512-1 / ISA-88.00.01 (table from memory). */
class BatchStatesTest {
  private static final long SEED = 61512;

  /** The way from each state by each request; a dash is a refusal. */
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "IDLE,       RUNNING, -,       -,       -,          -,        -",
    "RUNNING,    -,       PAUSING, -,       -,          STOPPING, ABORTING",
    "PAUSING,    -,       -,       -,       -,          STOPPING, ABORTING",
    "PAUSED,     -,       -,       RUNNING, -,          STOPPING, ABORTING",
    "HOLDING,    -,       -,       -,       -,          STOPPING, ABORTING",
    "HELD,       -,       -,       -,       RESTARTING, STOPPING, ABORTING",
    "RESTARTING, -,       -,       -,       -,          STOPPING, ABORTING",
    "STOPPING,   -,       -,       -,       -,          -,        ABORTING",
    "STOPPED,    -,       -,       -,       -,          -,        -",
    "ABORTING,   -,       -,       -,       -,          -,        -",
    "ABORTED,    -,       -,       -,       -,          -,        -",
    "COMPLETE,   -,       -,       -,       -,          -,        -",
  })
  void everyRequestIsTakenOrRefusedAsTheStandardSays(
      BatchState from,
      String start,
      String pause,
      String resume,
      String restart,
      String stop,
      String abort) {
    check(from, new Request.Start("Ada"), start);
    check(from, new Request.Pause("Ada"), pause);
    check(from, new Request.Resume("Ada"), resume);
    check(from, new Request.Restart("Ada"), restart);
    check(from, new Request.Stop("Ada"), stop);
    check(from, new Request.Abort("Ada"), abort);
  }

  private static void check(BatchState from, Request request, String to) {
    TickWork work = in(from);
    String before = DeepText.of(work.state());
    RequestDesk.take(request, work);
    boolean refused = work.events().stream().anyMatch(e -> e instanceof Event.RequestRefused);
    if (to.equals("-")) {
      assertTrue(refused, from + " " + request);
      assertEquals(before, DeepText.of(work.state()), "a refused request changes nothing");
      assertEquals(1, work.events().size());
    } else {
      assertFalse(refused, from + " " + request);
      assertEquals(BatchState.valueOf(to), work.phase);
      assertTrue(work.events().contains(new Event.StateChanged(from, work.phase, work.phaseWhy)));
      assertTrue(work.phaseWhy.contains("Ada"), work.phaseWhy);
      assertTrue(work.events().get(0) instanceof Event.RequestDone);
    }
  }

  private static TickWork in(BatchState phase) {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1));
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    work.tickS = ControlBench.TICK_S;
    work.phase = phase;
    return work;
  }

  private static ControlBench benchIn(BatchState phase) {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1));
    TickWork work = new TickWork(bench.plan, bench.state);
    work.phase = phase;
    work.phaseWhy = "test";
    bench.state = work.state();
    return bench;
  }

  @ParameterizedTest
  @EnumSource(BatchState.class)
  void aTripHoldsWhatCanBeHeldAndNothingElse(BatchState from) {
    ControlBench bench = benchIn(from);
    bench.set(Channel.EMERGENCY_STOP, 0).tick();
    Set<BatchState> held =
        Set.of(
            BatchState.RUNNING,
            BatchState.PAUSING,
            BatchState.PAUSED,
            BatchState.RESTARTING,
            BatchState.HOLDING,
            BatchState.HELD);
    Map<BatchState, BatchState> others = new EnumMap<>(BatchState.class);
    others.put(BatchState.STOPPING, BatchState.STOPPED);
    others.put(BatchState.ABORTING, BatchState.ABORTED);
    BatchState expected = held.contains(from) ? BatchState.HELD : others.getOrDefault(from, from);
    assertEquals(expected, bench.phase());
    assertTrue(bench.allOff());
  }

  @ParameterizedTest
  @EnumSource(BatchState.class)
  void theActingStatesLeadToTheirRestingStates(BatchState from) {
    ControlBench bench = benchIn(from);
    bench.tick();
    BatchState expected =
        switch (from) {
          case PAUSING -> BatchState.PAUSED;
          case HOLDING -> BatchState.HELD;
          case ABORTING -> BatchState.ABORTED;
          case STOPPING -> BatchState.STOPPED;
          case RESTARTING -> BatchState.RUNNING;
          default -> from;
        };
    assertEquals(expected, bench.phase());
    assertEquals(from == BatchState.RESTARTING ? "restarted" : "test", bench.state.phaseWhy());
  }

  @Test
  void stoppingLastsUntilTheSampleIsColdAndKnownToBe() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(500, 0.1)).start();
    bench.allAtK(400).forSeconds(10);
    bench.tick(new Request.Stop("Ada"));
    bench.forSeconds(60);
    assertEquals(BatchState.STOPPING, bench.phase());
    assertTrue(bench.allOff());
    bench.bad(Channel.SAMPLE_TEMPERATURE).forSeconds(60);
    assertEquals(BatchState.STOPPING, bench.phase());
    bench.allAtK(323.16).forSeconds(1);
    assertEquals(BatchState.STOPPING, bench.phase());
    bench.allAtK(323.14).tick();
    assertEquals(BatchState.STOPPED, bench.phase());
    assertEquals("stopped by Ada", bench.state.phaseWhy());
  }

  private static final Set<String> EDGES =
      Set.of(
          "IDLE RUNNING",
          "RUNNING COMPLETE",
          "RUNNING PAUSING",
          "PAUSING PAUSED",
          "PAUSED RUNNING",
          "RUNNING HOLDING",
          "PAUSING HOLDING",
          "PAUSED HOLDING",
          "RESTARTING HOLDING",
          "HOLDING HELD",
          "HELD RESTARTING",
          "RESTARTING RUNNING",
          "RUNNING STOPPING",
          "PAUSED STOPPING",
          "HELD STOPPING",
          "STOPPING STOPPED",
          "RUNNING ABORTING",
          "PAUSED ABORTING",
          "HELD ABORTING",
          "STOPPING ABORTING",
          "ABORTING ABORTED",
          // Several requests of one tick are taken one after the other.
          "PAUSING STOPPING",
          "PAUSING ABORTING",
          "RESTARTING STOPPING",
          "RESTARTING ABORTING");

  /** 10^5 random requests among random trips; every change of state is one of the standard's. */
  @Test
  void noRandomRequestFindsAnIllegalTransition() {
    SplittableRandom random = new SplittableRandom(SEED);
    Set<BatchState> seen = new java.util.HashSet<>();
    int refusals = 0;
    ControlBench bench = fresh();
    for (int i = 0; i < 100_000; i++) {
      bench.quiet();
      if (random.nextInt(50) == 0) {
        bench.set(Channel.EMERGENCY_STOP, 0);
      }
      bench.set(Channel.SAMPLE_TEMPERATURE, random.nextInt(3) == 0 ? 295 : 330);
      BatchState before = bench.phase();
      Request request = anyRequest(random, bench);
      ControlState stateBefore = bench.state;
      bench.events.clear();
      Turn turn = bench.tick(request);
      checkEdges(before, turn, "seed " + SEED + " request " + i);
      if (turn.events().stream().anyMatch(e -> e instanceof Event.RequestRefused)) {
        refusals++;
        if (refusals % 7 == 0) {
          changesNothingButAnEvent(bench, stateBefore, turn);
        }
      }
      seen.add(bench.phase());
      if (bench.phase().isFinal() && random.nextInt(10) == 0) {
        bench = fresh();
      }
    }
    assertTrue(refusals > 10_000, "refusals " + refusals);
    assertTrue(
        seen.containsAll(
            List.of(
                BatchState.IDLE,
                BatchState.RUNNING,
                BatchState.PAUSED,
                BatchState.HELD,
                BatchState.STOPPING,
                BatchState.STOPPED,
                BatchState.ABORTED,
                BatchState.COMPLETE)),
        "seen " + seen);
  }

  private static ControlBench fresh() {
    Step.Soak soak = TestSteps.soak(330, 2, 3);
    return ControlBench.with(TestSteps.evacuate(60_000), TestSteps.ramp(330, 100), soak);
  }

  private static void checkEdges(BatchState before, Turn turn, String where) {
    BatchState at = before;
    for (Event event : turn.events()) {
      if (event instanceof Event.StateChanged changed) {
        assertEquals(at, changed.from(), where);
        assertTrue(
            EDGES.contains(changed.from() + " " + changed.to()), where + ": " + changed.sentence());
        at = changed.to();
      }
    }
    assertEquals(at, turn.state().phase(), where);
  }

  private static void changesNothingButAnEvent(ControlBench bench, ControlState before, Turn turn) {
    Turn without = Control.tick(bench.plan, before, bench.readings, List.of(), bench.millis);
    assertEquals(DeepText.of(without.state()), DeepText.of(turn.state()));
    assertEquals(without.outputs(), turn.outputs());
    List<Event> rest =
        turn.events().stream()
            .filter(e -> !(e instanceof Event.RequestRefused))
            .filter(e -> !(e instanceof Event.PresenceChanged))
            .toList();
    assertEquals(without.events(), rest);
  }

  private static Request anyRequest(SplittableRandom random, ControlBench bench) {
    return switch (random.nextInt(12)) {
      case 0, 1 -> new Request.Start("Ada");
      case 2 -> new Request.Pause("Ada");
      case 3, 4 -> new Request.Resume("Ada");
      case 5, 6 -> new Request.Restart("Ada");
      case 7 -> random.nextInt(4) == 0 ? new Request.Stop("Ada") : new Request.Resume("Ada");
      case 8 -> random.nextInt(8) == 0 ? new Request.Abort("Ada") : new Request.Restart("Ada");
      case 9 -> new Request.Acknowledge("Ada", "emergency stop");
      case 10 -> new Request.Answer("Ada", random.nextInt(3), Map.of(), "");
      default -> new Request.Reset("Ada", "emergency stop", random.nextBoolean() ? "ok" : "");
    };
  }

  @ParameterizedTest
  @EnumSource(BatchState.class)
  void whatThePageOffersIsNotRefused(BatchState phase) {
    Map<String, Request> requests =
        Map.of(
            "start", new Request.Start("Ada"),
            "pause", new Request.Pause("Ada"),
            "resume", new Request.Resume("Ada"),
            "restart", new Request.Restart("Ada"),
            "stop", new Request.Stop("Ada"),
            "abort", new Request.Abort("Ada"));
    for (boolean tripped : new boolean[] {false, true}) {
      ControlBench bench = benchIn(phase);
      if (tripped) {
        TickWork work = new TickWork(bench.plan, bench.state);
        work.report(InterlockTable.POWER_RETURNED, "");
        bench.state = work.state();
      }
      List<String> offered = new Report(bench.plan, bench.state).mayAsk();
      requests.forEach(
          (word, request) -> {
            TickWork work = new TickWork(bench.plan, bench.state);
            if (phase.isFinal() && word.equals("start")) {
              // A start after the end is a new batch, which takes the alarms over.
              TickWork next = new TickWork(bench.plan, ControlState.initial(bench.plan));
              AsFound.after("Tarnish", bench.plan, bench.state)
                  .ifPresent(found -> AsFound.takeOver(List.of(found), next));
              work = next;
            }
            RequestDesk.take(request, work);
            boolean taken = work.events().stream().anyMatch(e -> e instanceof Event.RequestDone);
            assertEquals(taken, offered.contains(word), phase + " " + word + " " + tripped);
          });
    }
  }

  @Test
  void timeMustGoForward() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1));
    bench.tick();
    for (long step : new long[] {0, -250}) {
      IllegalArgumentException refused =
          org.junit.jupiter.api.Assertions.assertThrows(
              IllegalArgumentException.class, () -> bench.tickAfterMillis(step));
      assertTrue(refused.getMessage().contains("time must go forward"));
      bench.millis = bench.state.lastMillis();
    }
  }

  @Test
  void theSafeStateOpensTheVentWhereTheRigSaysSo() {
    for (boolean vent : new boolean[] {false, true}) {
      TestRig rig = new TestRig();
      rig.ventOpenWhenSafe = vent;
      for (BatchState phase : BatchState.values()) {
        ControlBench bench =
            new ControlBench(rig.build(), TestSteps.recipe(TestSteps.ramp(400, 0.1)));
        TickWork work = new TickWork(bench.plan, bench.state);
        work.phase = phase;
        bench.state = work.state();
        bench.set(Channel.SAMPLE_TEMPERATURE, 330);
        bench.tick();
        BatchState now = bench.phase();
        boolean safe = now == BatchState.IDLE || now == BatchState.HELD || now.isFinal();
        assertEquals(vent && safe, bench.isOn(tarnish.shared.rig.Switch.VENT), phase.words());
      }
    }
  }
}
