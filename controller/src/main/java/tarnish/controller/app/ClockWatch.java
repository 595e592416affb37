package tarnish.controller.app;

import java.util.Optional;
import java.util.function.LongSupplier;
import tarnish.controller.control.InterlockTable;

/** Holds the clock that names the time against the clock that measures it. */
final class ClockWatch {
  /** A change of the time of day by more than this is worth a word. */
  private static final long STEP_MILLIS = 60_000;

  private static final long NANOS_PER_MILLI = 1_000_000;

  private final LongSupplier wallMillis;
  private final LongSupplier nanos;
  private long lastWallMillis;
  private long lastNanos;

  ClockWatch(LongSupplier wallMillis, LongSupplier nanos) {
    this.wallMillis = wallMillis;
    this.nanos = nanos;
    lastWallMillis = wallMillis.getAsLong();
    lastNanos = nanos.getAsLong();
  }

  /**
   * A row of the interlock table that must be raised, with a word for the person.
   *
   * @param stepS how far the time of day was set forwards, in s; negative for back, 0 for not
   */
  record Seen(String row, String detail, long stepS) {}

  /** What must be raised since the last look, if anything. */
  Optional<Seen> look() {
    long wall = wallMillis.getAsLong();
    long now = nanos.getAsLong();
    long passedMillis = (now - lastNanos) / NANOS_PER_MILLI;
    long stepMillis = wall - lastWallMillis - passedMillis;
    boolean backwards = now < lastNanos;
    lastWallMillis = wall;
    lastNanos = now;
    if (backwards) {
      return Optional.of(new Seen(InterlockTable.CLOCK_LOST, "Seen by the shell.", 0));
    }
    if (Math.abs(stepMillis) <= STEP_MILLIS) {
      return Optional.empty();
    }
    long stepS = Math.round(stepMillis / 1000.0);
    return Optional.of(new Seen(InterlockTable.CLOCK_STEPPED, detail(stepS), stepS));
  }

  private static String detail(long stepS) {
    return "The clock was set "
        + (stepS < 0 ? "back" : "forwards")
        + " by "
        + Math.abs(stepS)
        + " s; the times of this batch go on as they began.";
  }
}
