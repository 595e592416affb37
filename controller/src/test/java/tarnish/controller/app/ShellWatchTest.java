package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Rig;
import tarnish.shared.rig.Switch;

class ShellWatchTest {
  private static final Outputs HOT = Outputs.of(500, Switch.HEATER, Switch.OXYGEN);

  private static final class FakeRig implements Rig {
    Outputs last = Outputs.OFF;

    @Override
    public void read(Readings into) {}

    @Override
    public void write(Outputs outputs) {
      last = outputs;
    }

    @Override
    public void close() {}
  }

  private final FakeRig bench = new FakeRig();
  private final GuardedRig guarded = new GuardedRig(bench, Outputs.OFF);
  private long nanos;
  private final LoopWatchdog watchdog = new LoopWatchdog(() -> guarded, () -> nanos);

  private void pass(long millis) {
    nanos += millis * 1_000_000;
  }

  @Test
  void aLoopThatTicksIsLeftAlone() {
    guarded.write(HOT);
    for (int i = 0; i < 20; i++) {
      pass(1400);
      watchdog.look();
      watchdog.tickDone();
    }
    assertEquals(HOT, bench.last);
    assertFalse(watchdog.takeTrip());
  }

  @Test
  void aLoopThatHangsHasItsBenchShutWithinTwoSeconds() {
    guarded.write(HOT);
    pass(1900);
    watchdog.look();
    assertEquals(Outputs.OFF, bench.last);
    guarded.write(HOT);
    assertEquals(Outputs.OFF, bench.last, "a loop that wakes up late may not switch on");
    assertTrue(watchdog.takeTrip());
    assertFalse(watchdog.takeTrip());
    guarded.lift();
    guarded.write(HOT);
    assertEquals(HOT, bench.last);
  }

  @Test
  void aClosedBenchStaysShut() {
    guarded.close();
    guarded.write(HOT);
    assertEquals(Outputs.OFF, bench.last);
  }

  @Test
  void systemdHearsOfALoopOnlyWhileItMoves() {
    List<String> heard = new ArrayList<>();
    SystemdNotifier notifier =
        SystemdNotifier.of(
            Map.of("NOTIFY_SOCKET", "/run/x", "WATCHDOG_USEC", "4000000"),
            watchdog::progress,
            heard::add);
    assertTrue(notifier.isAsked());
    assertEquals(2000, notifier.periodMillis());
    watchdog.tickDone();
    notifier.tellIfMoved();
    notifier.tellIfMoved();
    notifier.tellIfMoved();
    assertEquals(List.of("WATCHDOG=1"), heard);
    watchdog.tickDone();
    notifier.tellIfMoved();
    assertEquals(2, heard.size());
  }

  @Test
  void withoutSystemdNothingIsSent() {
    for (Map<String, String> environment :
        List.of(
            Map.<String, String>of(),
            Map.of("NOTIFY_SOCKET", "/run/x"),
            Map.of("NOTIFY_SOCKET", "/run/x", "WATCHDOG_USEC", "soon"))) {
      assertFalse(SystemdNotifier.of(environment, () -> 0, message -> {}).isAsked());
    }
  }

  @Test
  void aStepOfTheTimeOfDayAndAClockThatRunsBackwardsAreToldApart() {
    long[] wall = {1_000_000};
    ClockWatch clocks = new ClockWatch(() -> wall[0], () -> nanos);
    wall[0] += 5000;
    pass(5000);
    assertEquals(Optional.empty(), clocks.look());
    wall[0] += 3_600_000;
    pass(250);
    String forwards =
        "The clock was set forwards by 3600 s; the times of this batch go on as they began.";
    assertEquals(
        Optional.of(new ClockWatch.Seen(InterlockTable.CLOCK_STEPPED, forwards, 3600)),
        clocks.look());
    wall[0] -= 7_199_750;
    pass(250);
    ClockWatch.Seen back = clocks.look().orElseThrow();
    assertEquals(-7200, back.stepS());
    assertEquals(
        "The clock was set back by 7200 s; the times of this batch go on as they began.",
        back.detail());
    wall[0] += 250;
    pass(-1000);
    assertEquals(Optional.of(InterlockTable.CLOCK_LOST), clocks.look().map(ClockWatch.Seen::row));
  }
}
