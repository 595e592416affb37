package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

class SqliteJournalTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({"1,0.02", "2,0.0", "3,0.3"})
  void everyTickComesBackExactlyAsItWasHandedIn(long seed, double eventfulShare) {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(seed, 2100, eventfulShare);
    int batch;
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      batch = BatchMaker.writeAll(journal, ticks);
    }
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      Played.assertSame(ticks, Played.all(journal, batch));
    }
  }

  @ParameterizedTest
  @CsvSource({"1", "3", "4", "1023", "1024", "1025", "4095", "4096", "4097"})
  void ticksAroundTheBordersOfBlocksComeBack(int number) {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(number, number, 0.001);
    for (Pace pace : number > 2000 ? List.of(Pace.FAST) : List.of(Pace.values())) {
      try (SqliteJournal journal = SqliteJournal.open(folder, pace)) {
        int batch = BatchMaker.writeAll(journal, ticks);
        journal.flush();
        Played.assertSame(ticks, Played.all(journal, batch));
        journal.end(batch, "complete", "{}");
        Played.assertSame(ticks, Played.all(journal, batch));
      }
    }
  }

  @Test
  void aBatchGoesOnWhereItWasLeftAfterEveryRestart() {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(11, 3000, 0.01);
    int batch;
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      batch = BatchMaker.writeAll(journal, ticks.subList(0, 3));
    }
    for (int from = 3; from < ticks.size(); from += 333) {
      try (SqliteJournal journal = SqliteJournal.open(folder)) {
        int to = Math.min(from + 333, ticks.size());
        ticks.subList(from, to).forEach(tick -> tick.giveTo(journal, batch));
      }
    }
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      Played.assertSame(ticks, Played.all(journal, batch));
      assertEquals("wall " + ticks.get(2999).millis(), journal.lastWallTime(batch));
    }
  }

  @Test
  void twoBatchesTakingTurnsKeepTheirTicksApart() {
    List<BatchMaker.Made> one = BatchMaker.ticks(21, 50, 0.1);
    List<BatchMaker.Made> other = BatchMaker.ticks(22, 50, 0.1);
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int first = journal.begin(BatchMaker.HEAD);
      int second = journal.begin(BatchMaker.HEAD);
      for (int i = 0; i < 50; i++) {
        one.get(i).giveTo(journal, first);
        other.get(i).giveTo(journal, second);
      }
      journal.flush();
      Played.assertSame(one, Played.all(journal, first));
      Played.assertSame(other, Played.all(journal, second));
    }
  }

  @Test
  void headAndListOfBatchesTellWhatWasHandedIn() {
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      assertEquals(OptionalInt.empty(), journal.unfinished());
      int batch = BatchMaker.writeAll(journal, BatchMaker.ticks(5, 100, 0.1));
      assertEquals(1, batch);
      assertEquals(BatchMaker.HEAD, journal.head(1));
      assertEquals(OptionalInt.of(1), journal.unfinished());
      assertEquals("", journal.batches().get(0).endState());
      journal.end(1, "stopped", "{\"a\":1}");
      assertEquals(OptionalInt.empty(), journal.unfinished());
      Journal.BatchHead onRealBench = new Journal.BatchHead("b", "r", "g", "s", "n", null);
      assertEquals(2, journal.begin(onRealBench));
      assertEquals(onRealBench, journal.head(2));
      List<Journal.BatchLine> lines = journal.batches();
      assertEquals(List.of(2, 1), lines.stream().map(Journal.BatchLine::batch).toList());
      assertEquals("stopped", lines.get(1).endState());
      assertEquals("{\"a\":1}", lines.get(1).summaryJson());
      assertEquals(Played.all(journal, 1).get(99).millis(), lines.get(1).lastMillis());
    }
  }

  @Test
  void eventsAreGivenFromATimeOnOrTheNewest() {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(6, 300, 0.3);
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = BatchMaker.writeAll(journal, ticks);
      List<Journal.EventLine> all = journal.events(batch, 0, 100_000);
      long expected = ticks.stream().mapToLong(t -> t.requests().size() + t.events().size()).sum();
      assertEquals(expected, all.size());
      long middle = all.get(all.size() / 2).millis();
      List<Journal.EventLine> later = all.stream().filter(e -> e.millis() >= middle).toList();
      assertEquals(later.subList(0, 5), journal.events(batch, middle, 5));
      assertEquals(all.subList(all.size() - 7, all.size()), journal.events(batch, -1, 7));
      assertTrue(all.stream().anyMatch(e -> e.kind().equals("Request.Answer")));
    }
  }

  @ParameterizedTest
  @EnumSource(Pace.class)
  void mistakesOfTheCallerAreNamedAndLeaveTheRecordAlone(Pace pace) {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(8, 10, 0);
    try (SqliteJournal journal = SqliteJournal.open(folder, pace)) {
      int batch = BatchMaker.writeAll(journal, ticks);
      BatchMaker.Made last = ticks.get(9);
      assertThrows(IllegalArgumentException.class, () -> last.giveTo(journal, batch));
      double[] changed = BatchMaker.RESOLUTIONS.clone();
      changed[0] = 0.2;
      Readings otherRig = new Readings(changed);
      assertThrows(
          IllegalArgumentException.class,
          () ->
              journal.tick(batch, 1_000_000_000L, "", otherRig, List.of(), Outputs.OFF, List.of()));
      assertThrows(IllegalArgumentException.class, () -> last.giveTo(journal, 99));
      assertThrows(IllegalArgumentException.class, () -> journal.head(99));
      assertThrows(IllegalArgumentException.class, () -> journal.history(batch, 5, 4, 10));
      journal.end(batch, "complete", "");
      assertThrows(IllegalStateException.class, () -> last.giveTo(journal, batch));
      Played.assertSame(ticks, Played.all(journal, batch));
    }
  }

  @Test
  void readersSeeAnUnbrokenBeginningOfTheBatchWhileItIsWritten() throws Exception {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(9, 2500, 0.005);
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = journal.begin(BatchMaker.HEAD);
      AtomicBoolean done = new AtomicBoolean();
      Thread loop =
          new Thread(
              () -> {
                ticks.forEach(tick -> tick.giveTo(journal, batch));
                done.set(true);
              });
      loop.start();
      int seen = 0;
      while (!done.get() && loop.isAlive()) {
        List<Journal.RecordedTick> played = Played.all(journal, batch);
        Played.assertSame(ticks.subList(0, played.size()), played);
        assertTrue(played.size() >= seen);
        seen = played.size();
        Journal.History history = journal.history(batch, 0, 2_000_000, 300);
        if (!history.series().isEmpty()) {
          int drawn = java.util.Arrays.stream(history.series().get(0).count()).sum();
          assertTrue(drawn <= ticks.size());
        }
      }
      loop.join();
      journal.flush();
      Played.assertSame(ticks, Played.all(journal, batch));
    }
  }

  @Test
  void lastGoodStepsBehindABadReadingComeBackToo() {
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = journal.begin(BatchMaker.HEAD);
      Readings readings = new Readings(BatchMaker.RESOLUTIONS);
      readings.good(Channel.SAMPLE_TEMPERATURE, 300);
      readings.bad(Channel.SAMPLE_TEMPERATURE, tarnish.shared.reading.BadReason.STALE);
      journal.tick(batch, 1, "", readings, List.of(), Outputs.OFF, List.of());
      assertEquals(3000, Played.all(journal, batch).get(0).readings().steps(Channel.values()[0]));
    }
  }
}
