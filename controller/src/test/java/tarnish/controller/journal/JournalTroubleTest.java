package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.JournalException.Trouble;

/** A disk that refuses costs no tick and no event once it is well again. */
class JournalTroubleTest {
  private static final int SOUND = 1100;
  private static final int REFUSED = 1100;

  @TempDir Path folder;
  private SqliteJournal journal;
  private int batch;
  private final List<BatchMaker.Made> ticks = BatchMaker.ticks(81, SOUND + REFUSED + 500, 0.02);

  @BeforeEach
  void recordSomeTicks() {
    journal = SqliteJournal.open(folder);
    batch = journal.begin(BatchMaker.HEAD);
    ticks.subList(0, SOUND).forEach(tick -> tick.giveTo(journal, batch));
  }

  @AfterEach
  void close() {
    journal.close();
  }

  @Test
  void aFullDiskIsNamedAndNothingIsLostOnceThereIsRoom() throws SQLException {
    onWriter("PRAGMA max_page_count = 1");
    giveRefused(Trouble.DISK_FULL);
    onWriter("PRAGMA max_page_count = 1000000");
    giveTheRest();
  }

  @Test
  void aWriteProtectedFileIsNamedAndNothingIsLostOnceItIsWritable() throws SQLException {
    onWriter("PRAGMA query_only = 1");
    giveRefused(Trouble.READ_ONLY);
    onWriter("PRAGMA query_only = 0");
    giveTheRest();
  }

  @Test
  void aLockedFileIsNamedAndNothingIsLostOnceItIsFree() throws SQLException {
    onWriter("PRAGMA busy_timeout = 0");
    try (Connection other =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("tarnish.db"));
        Statement statement = other.createStatement()) {
      statement.execute("BEGIN IMMEDIATE");
      giveRefused(Trouble.LOCKED);
      statement.execute("ROLLBACK");
    }
    giveTheRest();
  }

  @Test
  void whenTheDiskRefusesForLongTheRecordHasAGapAndGoesOn() throws SQLException {
    journal.flush();
    onWriter("PRAGMA query_only = 1");
    BatchMaker maker = new BatchMaker(82, 0);
    long start = ticks.get(SOUND - 1).millis();
    int refused = 20_000;
    for (int i = 0; i < refused; i++) {
      BatchMaker.Made tick = maker.next();
      try {
        journal.tick(
            batch,
            start + tick.millis(),
            tick.wallTime(),
            tick.readings(),
            tick.requests(),
            tick.outputs(),
            tick.events());
      } catch (JournalException e) {
        assertEquals(Trouble.READ_ONLY, e.trouble());
      }
    }
    onWriter("PRAGMA query_only = 0");
    journal.flush();
    assertEquals(SOUND + 14 * 1024, Played.all(journal, batch).size());
  }

  /** Every tick that has to be written says so; the loop raises its alarm from that. */
  private void giveRefused(Trouble trouble) {
    boolean refused = false;
    for (BatchMaker.Made tick : ticks.subList(SOUND, SOUND + REFUSED)) {
      try {
        tick.giveTo(journal, batch);
        assertTrue(!refused, "no tick is silent once the disk has refused");
      } catch (JournalException e) {
        refused = true;
        assertEquals(trouble, e.trouble(), e.getMessage());
        assertTrue(e.getMessage().contains("tarnish.db"), e.getMessage());
      }
    }
    assertTrue(refused);
    assertThrows(JournalException.class, () -> journal.end(batch, "complete", ""));
    List<Journal.RecordedTick> played = Played.all(journal, batch);
    Played.assertSame(ticks.subList(0, played.size()), played);
  }

  private void giveTheRest() {
    for (BatchMaker.Made tick : ticks.subList(SOUND + REFUSED, ticks.size())) {
      tick.giveTo(journal, batch);
    }
    journal.flush();
    Played.assertSame(ticks, Played.all(journal, batch));
    journal.end(batch, "complete", "");
  }

  private void onWriter(String command) throws SQLException {
    try (Statement statement = journal.writeConnection().createStatement()) {
      statement.execute(command);
    }
  }
}
