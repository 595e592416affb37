package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;

/** How rows come up, which of them came first, and what is put aside. */
class AlarmBoardTest {
  private final ControlBench bench =
      ControlBench.with(TestSteps.ramp(700, 0.1)).start().forSeconds(10);

  @Test
  void aLostValueIsNotTheBeginningOfAnExcursion() {
    bench.bad(Channel.SEAL_TEMPERATURE).ticks(3);
    bench.set(Channel.SEAL_TEMPERATURE, 500).tick();
    assertEquals(AlarmState.NORMAL, bench.alarm("seal too hot"), "too hot for 0.25 s only");
    bench.tick();
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm("seal too hot"));
  }

  /** A gauge that is lost while the two disagree does not make them agree. */
  @Test
  void timeInWhichAValueIsLostCountsForAnExcursionThatHasBegunButDoesNotRaiseIt() {
    ControlBench pair = ControlBench.seeing(new TestRig().build(), TestSteps.soak(295, 1e5, 3));
    pair.start().set(Channel.VESSEL_PRESSURE_PAIR, 52_000).forSeconds(2.5);
    pair.bad(Channel.VESSEL_PRESSURE_PAIR).forSeconds(0.75);
    assertEquals(AlarmState.NORMAL, pair.alarm("gauges disagree"));
    pair.set(Channel.VESSEL_PRESSURE_PAIR, 52_000).tick();
    assertEquals(AlarmState.UNACKNOWLEDGED, pair.alarm("gauges disagree"));
  }

  @Test
  void theFirstRowOfTheTableCanBeTheFirstOut() {
    bench.set(Channel.EMERGENCY_STOP, 0).tick();
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    List<Boolean> first =
        bench.events(Event.AlarmRaised.class).stream().map(Event.AlarmRaised::firstOut).toList();
    assertEquals(List.of(true, false), first);
    assertTrue(bench.state.alarms().isFirstOut(0));
    assertTrue(bench.state.alarms().isActive("emergency stop", bench.plan.interlocks()));
    assertFalse(bench.state.alarms().isActive("runaway", bench.plan.interlocks()));
  }

  @Test
  void theFirstOutStaysMarkedWhateverBecomesOfItAndTheOthersUntilItIsReset() {
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.ROOM_OXYGEN, 0.24).ticks(2);
    int seal = bench.row("seal too hot");
    bench.tick(new Request.Acknowledge("Ada", "seal too hot"));
    assertTrue(bench.state.alarms().isFirstOut(seal), "acknowledged");
    bench.set(Channel.ROOM_OXYGEN, 0.2095).forSeconds(2);
    bench.tick(new Request.Reset("Ada", "room oxygen high", "aired"));
    assertEquals(AlarmState.NORMAL, bench.alarm("room oxygen high"));
    assertTrue(bench.state.alarms().isFirstOut(seal), "another was reset");
    bench.set(Channel.SEAL_TEMPERATURE, 295).forSeconds(2);
    assertTrue(bench.state.alarms().isFirstOut(seal), "its cause is gone");
    bench.tick(new Request.Reset("Ada", "seal too hot", "fan mended"));
    assertFalse(bench.state.alarms().isFirstOut(seal));
  }

  @Test
  void allIsNormalOnlyOnceNothingIsUpLatchedOrWaitsForAnAcknowledgement() {
    assertTrue(bench.state.alarms().allNormal());
    bench.set(Channel.DOOR, 0).ticks(2);
    assertFalse(bench.state.alarms().allNormal());
    bench.set(Channel.DOOR, 1).forSeconds(2);
    assertFalse(bench.state.alarms().allNormal(), "nobody has taken note");
    bench.tick(new Request.Acknowledge("Ada", "door open"));
    assertTrue(bench.state.alarms().allNormal());
  }

  @Test
  void whatIsNotUpIsNeitherAcknowledgedNorResetAndNothingIsRecorded() {
    TickWork work = new TickWork(bench.plan, bench.state);
    AlarmBoard board = bench.state.alarms();
    int i = bench.row("seal too hot");
    InterlockRow row = bench.plan.interlocks().get(i);
    assertSame(board, board.acknowledge(i, row, "Ada", work));
    assertSame(board, board.reset(i, row, "seen", work));
    assertTrue(work.events().isEmpty());
  }

  @Test
  void shelvedAndDefeatedRowsEachKeepTheirOwnTime() {
    AlarmBoard board = bench.state.alarms().shelved(0, 5000).defeated(1, 7000);
    assertEquals(5000, board.setAsideUntilMillis(0));
    assertEquals(7000, board.setAsideUntilMillis(1));
    assertTrue(board.isShelved(0) && board.isDefeated(1));
    assertFalse(board.isShelved(1) || board.isDefeated(0));
    assertTrue(board.anyDefeated());
    assertFalse(board.undefeated(1).anyDefeated());
    assertFalse(bench.state.alarms().anyDefeated());
  }

  @Test
  void aRowThatTheTableDoesNotHaveCannotBeReported() {
    TickWork work = new TickWork(bench.plan, bench.state);
    AlarmBoard board = bench.state.alarms();
    assertSame(board, board.report("moon is full", "", bench.plan.interlocks(), work));
  }
}
