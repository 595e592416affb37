package tarnish.controller.app;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;

/**
 * {@code warm-up}: serves the invented bench for a moment and ends, so that the classes of the
 * service can be archived for a quick start ({@code -XX:ArchiveClassesAtExit}).
 */
@Command(
    name = "warm-up",
    hidden = true,
    description = "Serves an invented bench for a moment, for a class archive.")
final class WarmUpCommand implements Callable<Integer> {
  private static final String[] LOOKS = {
    "", "app.js", "api/status", "api/session", "api/batches", "metrics"
  };

  @Override
  public Integer call() throws IOException, InterruptedException {
    String rigText = DemoCommand.resource(DemoCommand.RIG);
    String recipe = DemoCommand.resource(DemoCommand.RECIPE);
    LiveBench.Settings settings =
        new LiveBench.Settings(
            LoadedFiles.rig(DemoCommand.RIG, rigText),
            rigText,
            Map.of(DemoCommand.RECIPE, recipe),
            1,
            1000,
            false);
    Path folder = Files.createTempDirectory("tarnish-warm-up-");
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = LiveBench.start(settings, journal, Version.text());
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      bench.startBatch(recipe, "warm-up");
      while (bench.status().batchMillis() < 600_000) {
        look(web.port());
      }
    } finally {
      delete(folder);
    }
    return Main.DONE;
  }

  private static void look(int port) throws IOException, InterruptedException {
    HttpClient client = HttpClient.newHttpClient();
    for (String path : LOOKS) {
      URI address = URI.create("http://127.0.0.1:" + port + "/" + path);
      client.send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.discarding());
    }
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    }
  }
}
