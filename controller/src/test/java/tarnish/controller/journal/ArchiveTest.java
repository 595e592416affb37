package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.JournalException.Trouble;
import tarnish.shared.reading.Channel;

/** A batch as a file of its own, and the record as a copy. */
class ArchiveTest {
  @TempDir Path folder;

  private final List<BatchMaker.Made> ticks = BatchMaker.ticks(31, 2600, 0.02);

  private Path record() {
    return folder.resolve("tarnish.db");
  }

  private SqliteJournal twoEndedAndOneRunning() {
    SqliteJournal journal = SqliteJournal.open(folder);
    for (int i = 1; i <= 3; i++) {
      BatchMaker.writeAll(journal, ticks.subList(0, 400 * i + 1000));
      if (i < 3) {
        journal.end(i, "complete", "{\"invented\":" + i + "}");
      }
    }
    journal.flush();
    return journal;
  }

  @Test
  void anArchiveHoldsTheOneBatchWithItsNumberTickByTickWhileTheRecordIsWritten() {
    try (SqliteJournal journal = twoEndedAndOneRunning()) {
      Path archive = folder.resolve("a/batch-2.tarnish.db");
      long bytes = Archive.write(record(), 2, archive, false, "a test");
      assertEquals(bytes, archive.toFile().length());
      try (SqliteJournal read = SqliteJournal.openToRead(archive)) {
        assertEquals(1, read.batches().size());
        assertEquals(journal.batches().get(1), read.batches().get(0));
        assertEquals(journal.head(2), read.head(2));
        Played.assertSame(ticks.subList(0, 1800), Played.all(read, 2));
        assertEquals(journal.events(2, 0, Integer.MAX_VALUE), read.events(2, 0, Integer.MAX_VALUE));
        assertEquals(
            journal.history(2, 0, 1_000_000, 300).series().size(),
            read.history(2, 0, 1_000_000, 300).series().size());
      }
      Played.assertSame(ticks.subList(0, 2200), Played.all(journal, 3));
    }
  }

  /** With SQLite alone: units, meanings and numbers, without a line of this program. */
  @Test
  void anArchiveExplainsItselfAndItsPlainNumbersAreTheReadings() throws Exception {
    twoEndedAndOneRunning().close();
    Path archive = folder.resolve("batch-1.tarnish.db");
    Archive.write(record(), 1, archive, true, "a test");
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + archive);
        Statement statement = connection.createStatement()) {
      try (ResultSet row =
          statement.executeQuery("SELECT unit, resolution FROM channel WHERE number = 0")) {
        assertEquals("K", row.getString(1));
        assertEquals(BatchMaker.RESOLUTIONS[0], row.getDouble(2));
      }
      String query =
          "SELECT count(*), min(\"sample temperature [K]\"), max(\"sample temperature [K]\"), "
              + "count(\"sample temperature [K]\") FROM tick";
      double least = Double.POSITIVE_INFINITY;
      double greatest = Double.NEGATIVE_INFINITY;
      int good = 0;
      for (BatchMaker.Made tick : ticks.subList(0, 1400)) {
        if (tick.readings().isGood(Channel.SAMPLE_TEMPERATURE)) {
          double value = tick.readings().steps(Channel.SAMPLE_TEMPERATURE) * 0.1;
          least = StrictMath.min(least, value);
          greatest = StrictMath.max(greatest, value);
          good++;
        }
      }
      try (ResultSet row = statement.executeQuery(query)) {
        assertEquals(1400, row.getInt(1));
        assertEquals(least, row.getDouble(2));
        assertEquals(greatest, row.getDouble(3));
        assertEquals(good, row.getInt(4));
      }
      String extremes =
          "SELECT min(least), max(greatest), sum(good_ticks) FROM block_value WHERE channel = 0";
      try (ResultSet row = statement.executeQuery(extremes)) {
        assertEquals(least, row.getDouble(1), 1e-9 * StrictMath.abs(least));
        assertEquals(greatest, row.getDouble(2), 1e-9 * StrictMath.abs(greatest));
        assertEquals(good, row.getInt(3));
      }
      assertNoColumnIsUnexplained(statement);
    }
  }

  private static void assertNoColumnIsUnexplained(Statement statement) throws Exception {
    try (ResultSet row =
        statement.executeQuery("SELECT count(*), group_concat(topic) FROM about")) {
      assertTrue(row.getInt(1) >= 8, row.getString(2));
    }
    String dangling =
        "SELECT count(*) FROM column_meaning WHERE NOT EXISTS"
            + " (SELECT 1 FROM pragma_table_info(in_table) WHERE name = in_column)";
    try (ResultSet row = statement.executeQuery(dangling)) {
      assertEquals(0, row.getInt(1), "a meaning of a column that is not there");
    }
  }

  @Test
  void aBatchWithoutAnEndIsNotArchivedNorTakenOut() {
    try (SqliteJournal journal = twoEndedAndOneRunning()) {
      Path to = folder.resolve("batch-3.tarnish.db");
      assertThrows(
          IllegalArgumentException.class, () -> Archive.write(record(), 3, to, false, "a test"));
      assertThrows(IllegalArgumentException.class, () -> Archive.remove(journal, 3));
      assertFalse(Files.exists(to));
      assertEquals(3, journal.batches().size());
    }
  }

  @Test
  void aBatchTakenOutIsGoneTheOthersStayAndItsSpaceIsUsedAgain() throws IOException {
    try (SqliteJournal journal = twoEndedAndOneRunning()) {
      Archive.remove(journal, 1);
      assertEquals(List.of(3, 2), journal.batches().stream().map(it -> it.batch()).toList());
      Played.assertSame(ticks.subList(0, 1800), Played.all(journal, 2));
      Played.assertSame(ticks.subList(0, 2200), Played.all(journal, 3));
    }
    long before = Files.size(record());
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int next = BatchMaker.writeAll(journal, ticks.subList(0, 1000));
      journal.end(next, "complete", "");
      assertEquals(4, next);
    }
    assertTrue(Files.size(record()) <= before + 8192, before + " -> " + Files.size(record()));
  }

  @Test
  void noArchiveIsReplacedAndADamagedOneIsRefusedAndLeftAsItIs() throws IOException {
    twoEndedAndOneRunning().close();
    Path archive = folder.resolve("batch-1.tarnish.db");
    Archive.write(record(), 1, archive, false, "a test");
    JournalException e =
        assertThrows(
            JournalException.class, () -> Archive.write(record(), 1, archive, false, "a test"));
    assertEquals(Trouble.EXISTS, e.trouble());
    byte[] cut = java.util.Arrays.copyOf(Files.readAllBytes(archive), 12_000);
    Files.write(archive, cut);
    e = assertThrows(JournalException.class, () -> SqliteJournal.openToRead(archive));
    assertEquals(Trouble.DAMAGED_COPY, e.trouble());
    assertArrayEquals(cut, Files.readAllBytes(archive));
  }

  @Test
  void aBackupTakenInMidBatchIsTheRecordOfThatMomentAndCanBeGoneOnWith() throws IOException {
    Path copy = folder.resolve("b/copy.db");
    try (SqliteJournal journal = twoEndedAndOneRunning()) {
      Backup.of(folder, copy);
      ticks.subList(2200, 2600).forEach(tick -> tick.giveTo(journal, 3));
      journal.flush();
      Played.assertSame(ticks.subList(0, 2600), Played.all(journal, 3));
    }
    Path other = Files.createDirectory(folder.resolve("other"));
    Files.copy(copy, other.resolve("tarnish.db"));
    try (SqliteJournal journal = SqliteJournal.open(other)) {
      assertEquals("", journal.openingRemark());
      assertEquals(3, journal.unfinished().getAsInt());
      Played.assertSame(ticks.subList(0, 2200), Played.all(journal, 3));
      ticks.subList(2200, 2600).forEach(tick -> tick.giveTo(journal, 3));
      journal.end(3, "complete", "");
      Played.assertSame(ticks.subList(0, 2600), Played.all(journal, 3));
    }
  }
}
