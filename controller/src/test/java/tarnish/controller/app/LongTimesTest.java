package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.TimeZone;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Status;

/** A batch whose time has outgrown 32 bits of milliseconds, and time zones that change under it. */
class LongTimesTest {
  private static final int DAYS_AWAY = 26;

  @TempDir Path folder;

  private static LiveBench.Settings settings() {
    LoadedFiles files = Demo.copper();
    return new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 7, 2000, false);
  }

  private static Status await(LiveBench bench, String what, Predicate<Status> condition)
      throws InterruptedException {
    long end = System.nanoTime() + 120_000_000_000L;
    while (!condition.test(bench.status())) {
      assertTrue(System.nanoTime() < end, () -> "in vain: " + what + ", " + bench.status());
      Thread.sleep(5);
    }
    return bench.status();
  }

  @Test
  void aBatchGoesOnPastTwoToThe31stMillisecondAndReplays() throws Exception {
    assertTrue(DAYS_AWAY * 86_400_000L > Integer.MAX_VALUE);
    runForAnHour();
    moveBack();
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = LiveBench.start(settings(), journal, "test")) {
      Status held = await(bench, "held", s -> s.state().equals("held") && s.loop().ticks() > 100);
      assertTrue(held.batchMillis() > Integer.MAX_VALUE, "at " + held.batchMillis());
      bench.submit(new Request.CheckIn("tester", 8));
      // Cooling down for weeks takes the simulated bench so long that the loop is late, too.
      for (Status.AlarmLine alarm : held.alarms()) {
        bench.submit(new Request.Reset("tester", alarm.id(), "looked at the bench"));
      }
      await(bench, "may restart", s -> s.mayAsk().contains("restart"));
      bench.submit(new Request.Restart("tester"));
      await(bench, "running", s -> s.state().equals("running"));
      long then = bench.status().batchMillis();
      await(bench, "another hour", s -> s.batchMillis() > then + 3_600_000);
      assertEquals("running", bench.status().state());
      bench.submit(new Request.Abort("tester"));
      await(bench, "aborted", s -> s.state().equals("aborted"));
      assertEquals("", Replay.of(journal, 1).firstDifference());
      Journal.History late = journal.history(1, then, bench.status().batchMillis(), 200);
      assertTrue(late.startMillis()[0] > Integer.MAX_VALUE);
      assertTrue(late.startMillis().length > 50);
    }
  }

  private void runForAnHour() throws InterruptedException {
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = LiveBench.start(settings(), journal, "test")) {
      assertTrue(bench.startBatch(Demo.copper().recipeText(), "tester").isEmpty());
      await(bench, "an hour", s -> s.batchMillis() > 3_600_000);
    }
  }

  /** As if the power had been away for weeks. */
  private void moveBack() throws Exception {
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("tarnish.db"));
        PreparedStatement update =
            connection.prepareStatement("UPDATE batch SET started_at = ?, sum = NULL")) {
      update.setString(1, OffsetDateTime.now().minusDays(DAYS_AWAY).toString());
      update.executeUpdate();
    }
  }

  /**
   * Summer time begins and ends, and somebody sets another zone, while a batch runs: the record's
   * wall times go on evenly and nothing is held.
   */
  @Test
  void aChangeOfTimeZoneOrSummerTimeIsNotSeenByABatch() throws Exception {
    TimeZone before = TimeZone.getDefault();
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = LiveBench.start(settings(), journal, "test")) {
      bench.startBatch(Demo.copper().recipeText(), "tester");
      long at = 0;
      for (String zone : List.of("Europe/Berlin", "UTC", "Pacific/Apia", "GMT-11:00")) {
        TimeZone.setDefault(TimeZone.getTimeZone(zone));
        long until = at + 600_000;
        await(bench, zone, s -> s.batchMillis() > until);
        at = bench.status().batchMillis();
        assertEquals("running", bench.status().state());
        assertTrue(
            bench.status().alarms().stream().noneMatch(each -> each.id().contains("clock")),
            () -> bench.status().alarms().toString());
      }
      bench.submit(new Request.Abort("tester"));
      await(bench, "aborted", s -> s.state().equals("aborted"));
      OffsetDateTime first = OffsetDateTime.parse(journal.head(1).startedAt());
      for (Journal.EventLine event : journal.events(1, 0, Integer.MAX_VALUE)) {
        OffsetDateTime time = OffsetDateTime.parse(event.wallTime());
        assertEquals(
            event.millis(), java.time.Duration.between(first, time).toMillis(), event.toString());
      }
    } finally {
      TimeZone.setDefault(before);
    }
  }
}
