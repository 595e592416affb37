package tarnish.controller.app;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tarnish.controller.journal.Journal;

/** Intervals between the recorded ticks of a batch in ms. */
final class Jitter {
  private final long[] sorted;

  private Jitter(long[] sorted) {
    this.sorted = sorted;
  }

  static Jitter of(Journal journal, int batch, int fromTick) {
    List<Long> times = times(journal, batch);
    int from = Math.max(1, fromTick);
    long[] intervals = new long[Math.max(0, times.size() - from)];
    for (int i = from; i < times.size(); i++) {
      intervals[i - from] = times.get(i) - times.get(i - 1);
    }
    Arrays.sort(intervals);
    return new Jitter(intervals);
  }

  /** Of all recorded ticks of a batch in ms. */
  static List<Long> times(Journal journal, int batch) {
    List<Long> times = new ArrayList<>();
    journal.playBack(batch, tick -> times.add(tick.millis()));
    return times;
  }

  int count() {
    return sorted.length;
  }

  double mean() {
    return Arrays.stream(sorted).average().orElse(0);
  }

  long worst() {
    return sorted.length == 0 ? 0 : sorted[sorted.length - 1];
  }

  private long quantile(double share) {
    return sorted[Quantile.index(sorted.length, share)];
  }

  @Override
  public String toString() {
    return sorted.length == 0
        ? "no ticks"
        : "ticks %d, interval ms: mean %.2f, least %d, 1 %% %d, median %d, 99 %% %d, 99.9 %% %d, worst %d"
            .formatted(
                sorted.length,
                mean(),
                sorted[0],
                quantile(0.01),
                quantile(0.5),
                quantile(0.99),
                quantile(0.999),
                worst());
  }
}
