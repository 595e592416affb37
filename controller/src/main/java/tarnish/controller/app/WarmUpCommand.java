package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import picocli.CommandLine.Command;

/**
 * {@code warm-up}: serves the invented bench for a moment and ends, so that the classes of the
 * service can be archived for a quick start ({@code -XX:ArchiveClassesAtExit}).
 */
@Command(
    name = "warm-up",
    hidden = true,
    description = "Serves an invented bench for a moment, for a class archive.")
final class WarmUpCommand implements Callable<Integer> {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int ACCEPTED = 202;

  /** Of the list before the start of the demonstration recipe. */
  private static final Map<String, String> ANSWERS =
      Map.of(
          "charge", "0.004",
          "vessel", "yes",
          "source", "yes",
          "leak test", "yes",
          "proof tests", "yes",
          "presence", "yes");

  private static final long BATCH_MILLIS = 600_000;
  private static final String[] LOOKS = {
    "", "app.js", "api/status", "api/session", "api/batches", "metrics"
  };

  @Override
  public Integer call() throws IOException, InterruptedException {
    String recipe = DemoCommand.resource(DemoCommand.RECIPE);
    Path folder = Files.createTempDirectory("tarnish-warm-up-");
    try {
      Path rig = Files.writeString(folder.resolve(DemoCommand.RIG), rigText());
      Files.writeString(folder.resolve(DemoCommand.RECIPE), recipe);
      serve(rig, folder.resolve("record"), recipe);
    } finally {
      delete(folder);
    }
    return Main.DONE;
  }

  private static String rigText() {
    return DemoCommand.resource(DemoCommand.RIG);
  }

  /** By the very command that the package runs, so that every class of a start is seen. */
  private static void serve(Path rig, Path data, String recipe)
      throws IOException, InterruptedException {
    Said said = new Said();
    PrintWriter out = new PrintWriter(said, true);
    Thread serving =
        new Thread(
            () ->
                Main.run(
                    out,
                    out,
                    "serve",
                    "--rig",
                    rig.toString(),
                    "--data",
                    data.toString(),
                    "--port",
                    "0",
                    "--speed",
                    "1000"),
            "warm-up");
    serving.start();
    try {
      String address = said.address(serving);
      post(address, recipe);
      JsonNode status;
      do {
        status = look(address);
      } while (serving.isAlive() && status.path("batchMillis").asLong() < BATCH_MILLIS);
    } finally {
      serving.interrupt();
      serving.join();
    }
  }

  /** What the command prints, until it has said where it serves. */
  private static final class Said extends StringWriter {
    private static final Pattern ADDRESS = Pattern.compile("(http://127\\.0\\.0\\.1:\\d+/)");

    String address(Thread serving) throws InterruptedException {
      while (serving.isAlive()) {
        Matcher found = ADDRESS.matcher(toString());
        if (found.find()) {
          return found.group(1);
        }
        Thread.sleep(20);
      }
      throw new CommandFailure("The warm-up could not serve: " + this);
    }
  }

  private static void post(String address, String recipe) throws IOException, InterruptedException {
    HttpClient client = HttpClient.newHttpClient();
    String token = JSON.readTree(get(client, address + "api/session")).get("token").asText();
    HttpRequest look = HttpRequest.newBuilder(URI.create(address + "api/status")).build();
    String decidedOn =
        client
            .send(look, HttpResponse.BodyHandlers.discarding())
            .headers()
            .firstValue("X-Tarnish-State")
            .orElse("0");
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(address + "api/batches"))
            .header("Content-Type", "application/json")
            .header("X-Tarnish-Token", token)
            .header("X-Tarnish-State", decidedOn)
            .POST(
                HttpRequest.BodyPublishers.ofString(
                    JSON.writeValueAsString(
                        Map.of("recipe", recipe, "by", "warm-up", "answers", ANSWERS))))
            .build();
    HttpResponse<String> answer = client.send(request, HttpResponse.BodyHandlers.ofString());
    if (answer.statusCode() != ACCEPTED) {
      throw new CommandFailure("The warm-up could not start its batch: " + answer.body());
    }
  }

  private static JsonNode look(String address) throws IOException, InterruptedException {
    HttpClient client = HttpClient.newHttpClient();
    for (String path : LOOKS) {
      get(client, address + path);
    }
    return JSON.readTree(get(client, address + "api/status"));
  }

  private static String get(HttpClient client, String address)
      throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(address)).build();
    return client.send(request, HttpResponse.BodyHandlers.ofString()).body();
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    }
  }
}
