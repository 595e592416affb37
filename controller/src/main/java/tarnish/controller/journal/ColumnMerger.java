package tarnish.controller.journal;

import java.util.ArrayList;
import java.util.List;
import tarnish.controller.journal.Journal.History;
import tarnish.controller.journal.Journal.Series;
import tarnish.shared.reading.Channel;

/**
 * Merges stretches of ticks, given in order of time, into the columns of a drawing.
 *
 * <p>A stretch goes whole into the column in which it begins; where it reaches beyond the border,
 * the next column is said to start after it. So each column holds exactly the ticks from its own
 * start to the next one's, and the borders move by at most two thirds of a column.
 */
final class ColumnMerger {
  private final long fromMillis;
  private final long toMillis;
  private final long lengthMillis;
  private final long[] startMillis;
  private final Summary[] columns;
  private final Summary single = new Summary();
  private long takenToMillis = Long.MIN_VALUE;
  private int newest = -1;

  ColumnMerger(long fromMillis, long toMillis, int atMost) {
    this.fromMillis = fromMillis;
    this.toMillis = toMillis;
    this.lengthMillis = toMillis - fromMillis + 1;
    int number = (int) Math.min(atMost, lengthMillis);
    this.startMillis = new long[number];
    this.columns = new Summary[number];
    for (int i = 0; i < number; i++) {
      startMillis[i] = fromMillis + (i * lengthMillis + number - 1) / number;
      columns[i] = new Summary();
    }
  }

  /** True if a stretch may go in whole: it lies in the span and is at most 2/3 column long. */
  boolean fits(long firstMillis, long lastMillis) {
    return firstMillis >= fromMillis
        && lastMillis <= toMillis
        && (lastMillis - firstMillis) * 3 * columns.length <= lengthMillis * 2;
  }

  void take(Summary stretch) {
    int column = (int) ((stretch.firstMillis - fromMillis) * columns.length / lengthMillis);
    moveStartBehindWhatWasTaken(column);
    columns[column].take(stretch);
    takenToMillis = stretch.lastMillis;
  }

  /** Takes the ticks from {@code firstMillis} to {@code lastMillis} that lie in the span. */
  void take(TickBuffer ticks, long firstMillis, long lastMillis) {
    long from = Math.max(firstMillis, fromMillis);
    long to = Math.min(lastMillis, toMillis);
    for (int i = 0; i < ticks.count; i++) {
      if (ticks.millis[i] >= from && ticks.millis[i] <= to) {
        single.clear();
        single.take(ticks, i);
        take(single);
      }
    }
  }

  private void moveStartBehindWhatWasTaken(int column) {
    for (int i = newest + 1; i <= column; i++) {
      startMillis[i] = Math.max(startMillis[i], takenToMillis + 1);
    }
    newest = Math.max(newest, column);
  }

  History toHistory(double[] resolutions) {
    moveStartBehindWhatWasTaken(columns.length - 1);
    int[] switchesOn = new int[columns.length];
    int[] heaterPerMille = new int[columns.length];
    for (int i = 0; i < columns.length; i++) {
      switchesOn[i] = columns[i].switchesOn;
      int ticks = columns[i].ticks;
      heaterPerMille[i] = ticks == 0 ? 0 : (int) ((columns[i].perMilleSum + ticks / 2) / ticks);
    }
    List<Series> series = new ArrayList<>();
    for (int i = 0; i < resolutions.length; i++) {
      if (resolutions[i] > 0) {
        series.add(series(i, resolutions[i]));
      }
    }
    return new History(fromMillis, toMillis, startMillis, series, switchesOn, heaterPerMille);
  }

  private Series series(int channel, double resolution) {
    int number = columns.length;
    Series series =
        new Series(
            Channel.values()[channel].words(),
            new double[number],
            new double[number],
            new double[number],
            new double[number],
            new int[number]);
    for (int i = 0; i < number; i++) {
      Summary column = columns[i];
      series.count()[i] = column.count[channel];
      if (column.count[channel] > 0) {
        series.least()[i] = column.least[channel] * resolution;
        series.greatest()[i] = column.greatest[channel] * resolution;
        series.first()[i] = column.first[channel] * resolution;
        series.last()[i] = column.last[channel] * resolution;
      }
    }
    return series;
  }
}
