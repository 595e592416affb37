package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;

/** Whether the program may be exchanged, as an upgrade asks. */
class IdleTest {
  @TempDir private Path data;

  /** Exit status, and what was said. */
  private record Ran(int status, String words) {}

  private Ran ask(int port) {
    StringWriter words = new StringWriter();
    PrintWriter to = new PrintWriter(words);
    int status =
        Main.run(to, to, "idle", "--data", data.toString(), "--port", Integer.toString(port));
    return new Ran(status, words.toString());
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  @Test
  void withoutAServiceTheRecordDecides() throws IOException {
    int port = freePort();
    assertEquals(0, ask(port).status());
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      int batch = journal.begin(new BatchHead("a", "", "", "now", "invented", 1L));
      journal.end(batch, "complete", "{}");
    }
    assertEquals(0, ask(port).status());
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      journal.begin(new BatchHead("b", "", "", "now", "invented", 1L));
    }
    Ran busy = ask(port);
    assertEquals(1, busy.status());
    assertTrue(busy.words().contains("Batch 2 has no end yet"), busy.words());
  }

  @Test
  void aServiceThatRunsABatchIsAskedItself() {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "test");
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      assertEquals(0, ask(web.port()).status());
      assertEquals(Optional.empty(), bench.startBatch(files.recipeText(), "tester"));
      while (!bench.status().state().equals("running")) {
        Thread.onSpinWait();
      }
      Ran busy = ask(web.port());
      assertEquals(1, busy.status());
      assertTrue(busy.words().contains("Batch 1 is running"), busy.words());
    }
  }
}
