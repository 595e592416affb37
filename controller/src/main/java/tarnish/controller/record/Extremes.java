package tarnish.controller.record;

import java.util.Arrays;
import tarnish.controller.journal.Journal.Series;
import tarnish.shared.reading.Channel;

/** Least and greatest good value of a channel over a batch, in its SI unit. */
record Extremes(double least, double greatest, double last, long count) {

  static Extremes of(Series series) {
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    double last = 0;
    long count = 0;
    for (int i = 0; i < series.count().length; i++) {
      if (series.count()[i] > 0) {
        least = StrictMath.min(least, series.least()[i]);
        greatest = StrictMath.max(greatest, series.greatest()[i]);
        last = series.last()[i];
        count += series.count()[i];
      }
    }
    return new Extremes(least, greatest, last, count);
  }

  static Channel channel(Series series) {
    return Arrays.stream(Channel.values())
        .filter(each -> each.words().equals(series.channel()))
        .findFirst()
        .orElseThrow(() -> new IllegalStateException("no channel " + series.channel()));
  }
}
