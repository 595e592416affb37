package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Status;
import tarnish.controller.service.WebService;

/** A record that is found damaged at a start says so in the events of the batch in hand. */
@Timeout(600)
class DamageToldTest {
  private static final String KIND = "RecordDamaged";

  @TempDir Path folder;

  private final LoadedFiles files = Demo.copper();
  private final LiveBench.Settings settings =
      new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 7, 1000, false);

  /** The files of a batch as a crash leaves them. */
  private Path cutOff() throws Exception {
    Path left = Files.createDirectory(folder.resolve("left"));
    try (StartedBench started = StartedBench.on(folder.resolve("running"), settings)) {
      begin(started.bench());
      await(started.bench(), status -> status.batchMillis() > 300_000);
      for (String part : List.of("tarnish.db", "tarnish.db-wal")) {
        Files.copy(folder.resolve("running").resolve(part), left.resolve(part));
      }
    }
    return left;
  }

  @Test
  void aBatchWhoseNewestPartWasDamagedTellsItInItsEventsOnThePageAndInPrint() throws Exception {
    Path left = cutOff();
    Path log = left.resolve("tarnish.db-wal");
    byte[] bytes = Files.readAllBytes(log);
    bytes[bytes.length / 4 * 3] ^= 4;
    Files.write(log, bytes);
    String page;
    try (StartedBench started = StartedBench.on(left, settings);
        WebService web = WebService.start(started.bench(), "127.0.0.1", 0)) {
      await(started.bench(), status -> status.state().equals("held"));
      awaitTold(started.journal(), 1);
      page = get(web.port(), "/api/batches/1/events");
    }
    for (String words :
        List.of("damaged on the disk", ".log", "look at the bench before you go on")) {
      assertTrue(page.contains(words), page);
    }
    Ran record = Ran.run("record", 1, "--data", left, "--to", left);
    assertEquals(0, record.status(), record.errors());
    String printed = Files.readString(left.resolve("batch-1.html"));
    assertTrue(printed.contains("Damage of the record"), printed);
    assertTrue(printed.contains("damaged on the disk"), printed);
    try (StartedBench again = StartedBench.on(left, settings)) {
      await(again.bench(), status -> status.state().equals("held"));
      assertEquals(1, told(again.journal(), 1).size());
      assertEquals("", Replay.of(again.journal(), 1).firstDifference());
    }
  }

  @Test
  void theFirstBatchOfANewRecordTellsWhatBecameOfTheOldOneAndTheSecondDoesNot() throws Exception {
    Path left = cutOff();
    Path file = left.resolve("tarnish.db");
    Files.delete(left.resolve("tarnish.db-wal"));
    Files.writeString(file, "nothing that a record would hold");
    try (StartedBench started = StartedBench.on(left, settings)) {
      assertTrue(started.journal().batches().isEmpty());
    }
    // Started once more before anybody began a batch.
    try (StartedBench started = StartedBench.on(left, settings)) {
      assertEquals("", started.journal().remark());
      begin(started.bench());
      awaitTold(started.journal(), 1);
      started.bench().submit(new tarnish.controller.control.Request.Abort("tester"));
      await(started.bench(), status -> status.state().equals("aborted"));
      begin(started.bench());
      await(started.bench(), status -> status.batchMillis() > 10_000);
    }
    try (SqliteJournal journal = SqliteJournal.open(left)) {
      String sentence = told(journal, 1).get(0).sentence();
      for (String words : List.of("is damaged", "tarnish-set-aside-", "look at the bench")) {
        assertTrue(sentence.contains(words), sentence);
      }
      assertEquals(List.of(), told(journal, 2));
      assertEquals("", Replay.of(journal, 1).firstDifference());
    }
    Ran record = Ran.run("record", 1, "--data", left, "--to", left);
    assertEquals(0, record.status(), record.errors());
    assertTrue(Files.readString(left.resolve("batch-1.html")).contains("tarnish-set-aside-"));
  }

  @Test
  void aSoundRecordTellsOfNoDamage() throws Exception {
    Path left = cutOff();
    try (StartedBench started = StartedBench.on(left, settings)) {
      await(started.bench(), status -> status.state().equals("held"));
      assertFalse(started.journal().events(1, 0, Integer.MAX_VALUE).isEmpty());
      assertEquals(List.of(), told(started.journal(), 1));
    }
  }

  @Test
  void aSecondPressOfTheButtonBeginsNoSecondBatch() throws Exception {
    try (StartedBench started = StartedBench.on(folder.resolve("pressed"), settings)) {
      int taken = 0;
      while (started.bench().status().batchMillis() < 10_000) {
        Optional<String> refused = started.bench().startBatch(files.recipeText(), "tester");
        taken += refused.isEmpty() ? 1 : 0;
      }
      assertEquals(1, taken);
      assertEquals(1, started.journal().batches().size());
    }
  }

  private void begin(LiveBench bench) {
    assertEquals(Optional.empty(), bench.startBatch(files.recipeText(), "tester"));
  }

  private static List<EventLine> told(SqliteJournal journal, int batch) {
    return journal.entries(batch, List.of(KIND));
  }

  private static void awaitTold(SqliteJournal journal, int batch) throws InterruptedException {
    while (journal.batches().isEmpty() || told(journal, batch).isEmpty()) {
      Thread.sleep(5);
    }
  }

  private static void await(LiveBench bench, Predicate<Status> wanted) throws InterruptedException {
    while (!wanted.test(bench.status())) {
      Thread.sleep(5);
    }
  }

  private static String get(int port, String path) throws IOException, InterruptedException {
    URI address = URI.create("http://127.0.0.1:" + port + path);
    return HttpClient.newHttpClient()
        .send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.ofString())
        .body();
  }
}
