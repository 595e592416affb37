package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

class JournalHistoryTest {
  private static final Channel PRESSURE = Channel.VESSEL_PRESSURE;

  @TempDir Path folder;

  /** The law: each column holds exactly the ticks from its start to the next one's. */
  @Test
  void everySpanInAnyNumberOfColumnsAgreesWithItsTicks() {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(31, 20_000, 0.0005);
    long end = ticks.get(ticks.size() - 1).millis();
    SplittableRandom random = new SplittableRandom(32);
    try (SqliteJournal journal = SqliteJournal.open(folder, Pace.FAST)) {
      int batch = BatchMaker.writeAll(journal, ticks);
      journal.flush();
      check(journal.history(batch, 0, end, 10), ticks, 10);
      for (int i = 0; i < 150; i++) {
        long from = random.nextLong(end);
        long to =
            random.nextBoolean() ? random.nextLong(from, end + 1000) : from + 1 + (1L << i % 24);
        int columns = random.nextInt(1, 400);
        check(journal.history(batch, from, to, columns), ticks, columns);
      }
    }
  }

  private static void check(Journal.History history, List<BatchMaker.Made> ticks, int atMost) {
    int columns = history.startMillis().length;
    assertTrue(columns >= 1 && columns <= atMost);
    double width = (history.toMillis() - history.fromMillis() + 1.0) / columns;
    int[] borders = new int[columns + 1];
    for (int i = 0; i <= columns; i++) {
      long start = i == columns ? history.toMillis() + 1 : history.startMillis()[i];
      double nominal = history.fromMillis() + i * width;
      assertTrue(start >= nominal - 1e-6 && start <= nominal + width * 2 / 3 + 1, "column " + i);
      borders[i] = indexFrom(ticks, start);
    }
    for (int i = 0; i < columns; i++) {
      List<BatchMaker.Made> within = ticks.subList(borders[i], borders[i + 1]);
      int switches = 0;
      long duty = 0;
      for (BatchMaker.Made tick : within) {
        switches |= tick.outputs().switches();
        duty += tick.outputs().heaterPerMille();
      }
      assertEquals(switches, history.switchesOn()[i]);
      int mean = within.isEmpty() ? 0 : (int) Math.round((double) duty / within.size());
      assertEquals(mean, history.heaterPerMille()[i]);
      for (Journal.Series series : history.series()) {
        checkColumn(series, i, within);
      }
    }
  }

  private static void checkColumn(Journal.Series series, int i, List<BatchMaker.Made> within) {
    Channel channel =
        Arrays.stream(Channel.values())
            .filter(each -> each.words().equals(series.channel()))
            .findFirst()
            .orElseThrow();
    double[] good =
        within.stream()
            .filter(tick -> tick.readings().isGood(channel))
            .mapToDouble(tick -> tick.readings().value(channel))
            .toArray();
    assertEquals(good.length, series.count()[i]);
    assertEquals(Arrays.stream(good).min().orElse(0), series.least()[i]);
    assertEquals(Arrays.stream(good).max().orElse(0), series.greatest()[i]);
    assertEquals(good.length == 0 ? 0 : good[0], series.first()[i]);
    assertEquals(good.length == 0 ? 0 : good[good.length - 1], series.last()[i]);
  }

  private static int indexFrom(List<BatchMaker.Made> ticks, long millis) {
    int low = 0;
    int high = ticks.size();
    while (low < high) {
      int middle = (low + high) / 2;
      if (ticks.get(middle).millis() < millis) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  @Test
  void aSpikeOfOneTickShowsAtEveryZoom() {
    int spikeAt = 123_457;
    int number = 200_000;
    try (SqliteJournal journal = SqliteJournal.open(folder, Pace.FAST)) {
      int batch = journal.begin(BatchMaker.HEAD);
      Readings readings = new Readings(BatchMaker.RESOLUTIONS);
      for (int i = 0; i < number; i++) {
        readings.good(PRESSURE, i == spikeAt ? 180_000 : 95_000 + 10 * (i % 3));
        Outputs outputs = i == spikeAt ? Outputs.of(0, Switch.VENT) : Outputs.OFF;
        journal.tick(batch, i * 250L, "", readings, List.of(), outputs, List.of());
      }
      journal.flush();
      long spikeMillis = spikeAt * 250L;
      for (long half = 1; half < number * 250L; half *= 2) {
        long from = Math.max(0, spikeMillis - half);
        Journal.History history = journal.history(batch, from, spikeMillis + half / 2, 97);
        double greatest = Arrays.stream(series(history).greatest()).max().orElseThrow();
        assertEquals(180_000, greatest, "half span " + half);
        int switches = Arrays.stream(history.switchesOn()).reduce(0, (a, b) -> a | b);
        assertEquals(Outputs.of(0, Switch.VENT).switches(), switches);
      }
    }
  }

  @Test
  void gapsOfTimeAndOfGoodReadingsStayGaps() {
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = journal.begin(BatchMaker.HEAD);
      Readings readings = new Readings(BatchMaker.RESOLUTIONS);
      for (int i = 0; i < 3000; i++) {
        if (i < 1000 || i >= 2000) {
          readings.good(PRESSURE, 95_000);
        } else {
          readings.bad(PRESSURE, BadReason.OPEN_CIRCUIT);
        }
        long millis = i * 250L + (i >= 2500 ? 3_600_000 : 0);
        journal.tick(batch, millis, "", readings, List.of(), Outputs.OFF, List.of());
      }
      journal.flush();
      Journal.History history = journal.history(batch, 0, 750_000 + 3_600_000, 200);
      for (int i = 0; i < 200; i++) {
        long start = history.startMillis()[i];
        long next = i == 199 ? history.toMillis() + 1 : history.startMillis()[i + 1];
        boolean badThroughout = start >= 250_000 && next <= 500_000;
        boolean nobodyThere = start >= 625_000 && next <= 4_225_000;
        if (badThroughout || nobodyThere) {
          assertEquals(0, series(history).count()[i], "column from " + start);
          assertEquals(0.0, series(history).greatest()[i]);
        } else {
          assertTrue(series(history).count()[i] > 0, "column from " + start);
        }
      }
    }
  }

  @Test
  void aBatchWithoutATickDrawsNothing() {
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = journal.begin(BatchMaker.HEAD);
      Journal.History history = journal.history(batch, 0, 1000, 50);
      assertEquals(List.of(), history.series());
      assertEquals(50, history.startMillis().length);
    }
  }

  private static Journal.Series series(Journal.History history) {
    return history.series().stream()
        .filter(each -> each.channel().equals(PRESSURE.words()))
        .findFirst()
        .orElseThrow();
  }
}
