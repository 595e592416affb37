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
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JournalFileTest {
  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void nameTheFile() {
    file = folder.resolve("tarnish.db");
  }

  @Test
  void aMissingFolderIsMadeAndANewRecordNeedsNoRemark() {
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("a/b"))) {
      assertEquals("", journal.openingRemark());
      assertEquals(List.of(), journal.batches());
    }
  }

  @Test
  void aTextFileIsSetAside() throws IOException {
    assertSetAside("dear diary, ".repeat(1000).getBytes());
  }

  @Test
  void anEmptyFileIsSetAside() throws IOException {
    assertSetAside(new byte[0]);
  }

  @Test
  void aTruncatedRecordIsSetAside() throws IOException {
    byte[] sound = soundRecord();
    assertSetAside(Arrays.copyOf(sound, sound.length / 2 / 4096 * 4096));
    assertSetAside(Arrays.copyOf(sound, sound.length / 2 + 100));
    assertSetAside(Arrays.copyOf(sound, 50));
  }

  @Test
  void aRecordWithSpoiltPagesIsSetAside() throws IOException {
    byte[] spoilt = soundRecord();
    Arrays.fill(spoilt, 4096, Math.min(spoilt.length, 12 * 4096), (byte) 0x5a);
    assertSetAside(spoilt);
  }

  @Test
  void aDatabaseOfAnotherProgramIsSetAside() throws Exception {
    change("CREATE TABLE recipes (cake TEXT)");
    assertSetAside(Files.readAllBytes(file));
  }

  @Test
  void aRecordOfANewerVersionIsRefusedAndLeftAlone() throws Exception {
    soundRecord();
    change("PRAGMA user_version = 99");
    byte[] before = Files.readAllBytes(file);
    JournalException e = assertThrows(JournalException.class, () -> SqliteJournal.open(folder));
    assertEquals(JournalException.Trouble.TOO_NEW, e.trouble());
    assertArrayEquals(before, Files.readAllBytes(file));
  }

  @Test
  void aFolderInUseIsRefusedUntilItIsFree() {
    SqliteJournal first = SqliteJournal.open(folder);
    JournalException e = assertThrows(JournalException.class, () -> SqliteJournal.open(folder));
    assertEquals(JournalException.Trouble.LOCKED, e.trouble());
    first.close();
    SqliteJournal.open(folder).close();
  }

  @Test
  void aFolderThatCannotBeMadeIsNamed() throws IOException {
    Path blocked = Files.writeString(folder.resolve("blocked"), "a file");
    JournalException e = assertThrows(JournalException.class, () -> SqliteJournal.open(blocked));
    assertTrue(e.getMessage().contains(blocked.toString()), e.getMessage());
  }

  @Test
  void aSoundRecordIsOpenedAgainWithoutARemark() throws IOException {
    soundRecord();
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      assertEquals("", journal.openingRemark());
      assertEquals(1, journal.batches().size());
    }
  }

  private byte[] soundRecord() throws IOException {
    try (SqliteJournal journal = SqliteJournal.open(folder, Pace.FAST)) {
      BatchMaker.writeAll(journal, BatchMaker.ticks(71, 6000, 0.02));
    }
    return Files.readAllBytes(file);
  }

  private void change(String command) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute(command);
    }
  }

  /** The content is kept byte by byte under another name, and the new record works. */
  private void assertSetAside(byte[] content) throws IOException {
    Files.write(file, content);
    List<Path> before = setAside();
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      List<Path> aside = setAside();
      aside.removeAll(before);
      assertEquals(1, aside.size());
      assertArrayEquals(content, Files.readAllBytes(aside.get(0)));
      String remark = journal.openingRemark();
      assertTrue(remark.contains(aside.get(0).getFileName().toString()), remark);
      List<BatchMaker.Made> ticks = BatchMaker.ticks(72, 50, 0.1);
      int batch = BatchMaker.writeAll(journal, ticks);
      journal.flush();
      assertEquals(1, batch);
      Played.assertSame(ticks, Played.all(journal, batch));
    }
  }

  private List<Path> setAside() throws IOException {
    try (var files = Files.list(folder)) {
      return new java.util.ArrayList<>(
          files
              .filter(each -> each.getFileName().toString().matches("tarnish-set-aside-.*\\.db"))
              .toList());
    }
  }
}
