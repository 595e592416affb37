package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.SqliteJournal;

/** {@code idle}: whether the program may be stopped and exchanged. */
@Command(
    name = "idle",
    mixinStandardHelpOptions = true,
    description =
        "Exit status 0 if no batch is under way: asks the service, or where none runs the record."
            + " In doubt 1.")
final class IdleCommand implements Callable<Integer> {
  private static final Set<String> OVER = Set.of("idle", "complete", "stopped", "aborted");
  private static final Duration PATIENCE = Duration.ofSeconds(5);

  @Option(names = "--data", required = true, paramLabel = "DIR", description = "of the record")
  private Path data;

  @Option(
      names = "--port",
      defaultValue = "8471",
      paramLabel = "N",
      description = "port of the page (default: ${DEFAULT-VALUE})")
  private int port;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws InterruptedException {
    String found;
    try {
      found = askService();
    } catch (ConnectException nobodyThere) {
      found = askRecord();
    } catch (IOException e) {
      throw new CommandFailure(
          "The service at port " + port + " cannot be asked: " + e.getMessage());
    }
    if (!found.isEmpty()) {
      throw new CommandFailure(found);
    }
    spec.commandLine().getOut().println("No batch is under way.");
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }

  private String askService() throws IOException, InterruptedException {
    HttpClient client = HttpClient.newBuilder().connectTimeout(PATIENCE).build();
    URI address = URI.create("http://127.0.0.1:" + port + "/api/status");
    JsonNode status =
        new ObjectMapper()
            .readTree(
                client
                    .send(
                        HttpRequest.newBuilder(address).timeout(PATIENCE).build(),
                        HttpResponse.BodyHandlers.ofString())
                    .body());
    String state = status.path("state").asText();
    return OVER.contains(state)
        ? ""
        : "Batch " + status.path("batch").asText() + " is " + state + ".";
  }

  private String askRecord() {
    if (!Files.exists(data)) {
      return "";
    }
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      OptionalInt unfinished = journal.unfinished();
      return unfinished.isEmpty() ? "" : "Batch " + unfinished.getAsInt() + " has no end yet.";
    }
  }
}
