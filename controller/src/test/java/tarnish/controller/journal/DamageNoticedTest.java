package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.controller.journal.JournalException.Trouble;

/** Damage that the database itself does not see. */
class DamageNoticedTest {
  private static final int WAL_HEADER = 32;

  @TempDir Path folder;

  private final List<BatchMaker.Made> ticks = BatchMaker.ticks(91, 1500, 0.02);

  /** The files of a batch as a crash leaves them: much of it still in the log. */
  private Path cutOff() throws IOException {
    Path running = folder.resolve("running");
    Path left = Files.createDirectory(folder.resolve("left"));
    try (SqliteJournal journal = SqliteJournal.open(running)) {
      BatchMaker.writeAll(journal, ticks);
      journal.flush();
      for (String part : List.of("tarnish.db", "tarnish.db-wal")) {
        Files.copy(running.resolve(part), left.resolve(part));
      }
    }
    return left;
  }

  @ParameterizedTest
  @ValueSource(ints = {20, WAL_HEADER + 9, WAL_HEADER + 4000, WAL_HEADER + 60_000})
  void aBitThatTurnedInTheLogIsToldTheLogIsKeptAndTheBeginningIsTrue(int at) throws IOException {
    Path left = cutOff();
    Path log = left.resolve("tarnish.db-wal");
    byte[] bytes = Files.readAllBytes(log);
    bytes[at] ^= 4;
    Files.write(log, bytes);
    try (SqliteJournal journal = SqliteJournal.open(left)) {
      assertTrue(journal.remark().contains("damaged on the disk"), journal.remark());
      assertEquals(journal.remark(), journal.notes(1).get(0).sentence());
      if (!journal.batches().isEmpty()) {
        List<Journal.RecordedTick> played = Played.all(journal, 1);
        assertTrue(played.size() < ticks.size());
        Played.assertSame(ticks.subList(0, played.size()), played);
      }
    }
    List<Path> kept = new ArrayList<>();
    try (var files = Files.list(left)) {
      files.filter(it -> it.toString().endsWith(".log")).forEach(kept::add);
    }
    assertEquals(1, kept.size());
    assertArrayEquals(bytes, Files.readAllBytes(kept.get(0)));
  }

  @Test
  void aLogThatAPowerCutToreOffInItsLastWriteIsNoDamage() throws IOException {
    Path left = cutOff();
    Path log = left.resolve("tarnish.db-wal");
    byte[] bytes = Files.readAllBytes(log);
    Files.write(log, Arrays.copyOf(bytes, bytes.length - 1000));
    try (SqliteJournal journal = SqliteJournal.open(left)) {
      assertEquals("", journal.remark());
      List<Journal.RecordedTick> played = Played.all(journal, 1);
      Played.assertSame(ticks.subList(0, played.size()), played);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "UPDATE event SET sentence = replace(sentence, 'e', 'i') WHERE sentence LIKE '%e%'",
        "UPDATE event SET millis = millis + 1",
        "UPDATE batch SET recipe_text = recipe_text || ' '",
        "UPDATE sample_block SET last_wall = 'x'",
        "UPDATE sample_tail SET ticks = substr(ticks, 1, length(ticks) - 1) || x'01'"
      })
  void aRowThatIsNotWhatWasWrittenIsRefused(String change) throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      BatchMaker.writeAll(journal, ticks);
    }
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("tarnish.db"));
        Statement statement = connection.createStatement()) {
      assertTrue(statement.executeUpdate(change) > 0);
    }
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      JournalException e =
          assertThrows(
              JournalException.class,
              () -> {
                journal.head(1);
                Played.all(journal, 1);
              });
      assertEquals(Trouble.DAMAGED, e.trouble());
    }
  }

  @Test
  void aLargeFileIsCheckedInTheBackgroundAndOnlyDamageIsTold() throws IOException {
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      BatchMaker.writeAll(journal, ticks);
      journal.end(1, "complete", "");
    }
    Path file = folder.resolve("tarnish.db");
    List<String> told = new ArrayList<>();
    LargeFileCheck.run(file, told::add);
    assertEquals(List.of(), told);
    byte[] bytes = Files.readAllBytes(file);
    Arrays.fill(bytes, 4096, bytes.length - 4096, (byte) 0x5a);
    Files.write(file, bytes);
    LargeFileCheck.run(file, told::add);
    assertEquals(1, told.size(), told::toString);
  }

  @Test
  void aRecordWhoseInterruptedBatchIsDamagedIsSetAsideWhenAsked() throws IOException {
    Path left = cutOff();
    try (SqliteJournal journal = SqliteJournal.openAnew(left, "holds a damaged batch")) {
      assertTrue(journal.remark().contains("holds a damaged batch"), journal.remark());
      assertEquals(List.of(), journal.batches());
      assertEquals("set aside", journal.notes(1).get(0).kind());
    }
  }
}
