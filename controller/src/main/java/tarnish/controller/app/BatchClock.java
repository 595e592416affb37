package tarnish.controller.app;

/** Monotonic time of a batch on a real bench in whole ms. One thread. */
final class BatchClock {
  private final long tickMillis;
  private long originNanos;

  BatchClock(long tickMillis) {
    this.tickMillis = tickMillis;
    restart(0);
  }

  /** Lets the next tick be one period after {@code millis}. */
  void restart(long millis) {
    originNanos = System.nanoTime() - (millis + tickMillis) * 1_000_000;
  }

  /** Now, at least 1 ms after {@code lastMillis}: time must go forward from tick to tick. */
  long millis(long lastMillis) {
    return Math.max(lastMillis + 1, (System.nanoTime() - originNanos) / 1_000_000);
  }
}
