package tarnish.controller.app;

import java.util.Arrays;
import java.util.List;

/**
 * How late ticks come, each against the grid of periods that the earliest of them so far give: a
 * late tick counts once, and not again because the next one, in time, follows it closely.
 */
final class Lateness {
  private final long[] sorted;

  private Lateness(long[] sorted) {
    this.sorted = sorted;
  }

  /** Of the times of ticks in ms, from the one of that number on. */
  static Lateness of(List<Long> times, int fromTick, long periodMillis) {
    long[] late = new long[Math.max(0, times.size() - fromTick)];
    long lateMillis = 0;
    for (int i = 0; i < late.length; i++) {
      int tick = fromTick + i;
      if (tick > 0) {
        long interval = times.get(tick) - times.get(tick - 1);
        lateMillis = Math.max(0, lateMillis + interval - periodMillis);
      }
      late[i] = lateMillis;
    }
    Arrays.sort(late);
    return new Lateness(late);
  }

  private long quantile(double share) {
    return sorted[Quantile.index(sorted.length, share)];
  }

  @Override
  public String toString() {
    return sorted.length == 0
        ? "no ticks"
        : "%d, late by: median %d ms, 99 %% %d ms, 99.9 %% %d ms, worst %d ms"
            .formatted(sorted.length, quantile(0.5), quantile(0.99), quantile(0.999), quantile(1));
  }
}
