package tarnish.controller.app;

import java.time.Clock;
import java.util.List;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Request;

/**
 * What the shell itself has seen go wrong is told to control, which then trips by its table. Called
 * by the loop thread only.
 */
final class ShellTroubles {
  private static final long TELL_AGAIN_MILLIS = 10_000;

  private final RequestQueue queue;
  private final LoopWatchdog watchdog;
  private final ClockWatch clocks;
  private long unconfirmedToldMillis = Long.MIN_VALUE;

  ShellTroubles(RequestQueue queue, LoopWatchdog watchdog, Clock wall) {
    clocks = new ClockWatch(wall::millis, System::nanoTime);
    this.queue = queue;
    this.watchdog = watchdog;
  }

  /** Tells what the watchdogs of loop and clock have seen. */
  void watchClocks() {
    if (watchdog.takeTrip()) {
      tell(
          InterlockTable.LOOP_OVERRUN,
          "The watchdog had shut the bench after "
              + LoopWatchdog.PATIENCE_MILLIS
              + " ms without a tick.");
    }
    clocks.look().ifPresent(this::tell);
  }

  /** Tells when a device no longer confirms what it was told, and again while that lasts. */
  void watchOutputs(BenchRun run) {
    List<String> sentences = run.bench().unconfirmed();
    if (sentences.isEmpty()) {
      unconfirmedToldMillis = Long.MIN_VALUE;
    } else if (unconfirmedToldMillis == Long.MIN_VALUE
        || run.millis() - unconfirmedToldMillis >= TELL_AGAIN_MILLIS) {
      unconfirmedToldMillis = run.millis();
      tell(InterlockTable.OUTPUTS_NOT_CONFIRMED, String.join(" ", sentences));
    }
  }

  private void tell(ClockWatch.Seen seen) {
    queue.offer(new Request.ShellTrouble(LiveBench.SHELL, seen.row(), seen.detail(), seen.stepS()));
  }

  void tell(String alarm, String detail) {
    queue.offer(new Request.ShellTrouble(LiveBench.SHELL, alarm, detail));
  }
}
