package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The packaged program as a process of its own, on a free port of this machine. */
final class ServedProcess implements AutoCloseable {
  static final String JAVA = Path.of(System.getProperty("java.home"), "bin", "java").toString();

  /** The list before the start of the copper demonstration, gone through. */
  private static final Map<String, String> ANSWERS =
      Map.of(
          "charge", "0.004",
          "vessel", "yes",
          "source", "yes",
          "leak test", "yes",
          "proof tests", "yes",
          "presence", "yes");

  /** The bench is no longer what was looked at: one looks again, as a person would. */
  private static final int STALE = 409;

  private static final int LOOKS = 50;

  private static final Path JAR = Path.of("target/tarnish.jar");
  private static final Pattern ADDRESS = Pattern.compile("at (http://127\\.0\\.0\\.1:\\d+/)");
  private static final Duration PATIENCE = Duration.ofSeconds(300);
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Process process;
  private final String address;
  private final HttpClient client = HttpClient.newHttpClient();
  private final FirstTick firstTick;

  private ServedProcess(Process process, String address, FirstTick firstTick) {
    this.process = process;
    this.firstTick = firstTick;
    this.address = address;
  }

  static ServedProcess start(String... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of(JAVA, "-Xmx64m", "-jar", JAR.toString()));
    command.addAll(List.of(arguments));
    return launch(command);
  }

  /** Starts a process that prints the address it serves. */
  static ServedProcess launch(List<String> command) throws IOException {
    Process process = new ProcessBuilder(command).start();
    FirstTick firstTick = new FirstTick(process.errorReader());
    BufferedReader lines = process.inputReader();
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      Matcher matcher = ADDRESS.matcher(line);
      if (matcher.find()) {
        drain(lines);
        return new ServedProcess(process, matcher.group(1), firstTick);
      }
    }
    throw new IllegalStateException("the program ended without serving");
  }

  /** Keeps the pipe empty, so that the program never waits for us to read its log. */
  private static void drain(BufferedReader lines) {
    Thread reader =
        new Thread(
            () -> {
              try {
                while (lines.readLine() != null) {
                  Thread.onSpinWait();
                }
              } catch (IOException ended) {
                // The process is gone.
              }
            });
    reader.setDaemon(true);
    reader.start();
  }

  /** Hands on what the program logs and remembers what it says of its first tick. */
  private static final class FirstTick extends Thread {
    private static final Pattern SAID = Pattern.compile("First tick (\\d+) ms after");

    private final BufferedReader lines;
    private volatile long millis = -1;

    FirstTick(BufferedReader lines) {
      super("log reader");
      this.lines = lines;
      setDaemon(true);
      start();
    }

    @Override
    public void run() {
      try {
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
          Matcher said = SAID.matcher(line);
          if (said.find()) {
            millis = Long.parseLong(said.group(1));
          } else {
            System.err.println(line);
          }
        }
      } catch (IOException ended) {
        // The process is gone.
      }
    }
  }

  /** From the start of the process to its first tick, in ms; -1 where it does not say. */
  long firstTickMillis() {
    return firstTick.millis;
  }

  long pid() {
    return process.pid();
  }

  String address() {
    return address;
  }

  JsonNode status() throws IOException, InterruptedException {
    return get("api/status");
  }

  JsonNode get(String path) throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(address + path)).build();
    return JSON.readTree(client.send(request, HttpResponse.BodyHandlers.ofString()).body());
  }

  /** Asks for a batch, the list before its start gone through, and gives the HTTP status. */
  int begin(String recipe) throws IOException, InterruptedException {
    return post(
        "api/batches",
        JSON.writeValueAsString(Map.of("recipe", recipe, "by", "tester", "answers", ANSWERS)));
  }

  /** Posts a request to the queue and gives the HTTP status. */
  int post(String path, String json) throws IOException, InterruptedException {
    int status = postOnce(path, json);
    for (int i = 0; i < LOOKS && status == STALE; i++) {
      status = postOnce(path, json);
    }
    return status;
  }

  private int postOnce(String path, String json) throws IOException, InterruptedException {
    String token = get("api/session").get("token").asText();
    HttpRequest look = HttpRequest.newBuilder(URI.create(address + "api/status")).build();
    String state =
        client
            .send(look, HttpResponse.BodyHandlers.discarding())
            .headers()
            .firstValue("X-Tarnish-State")
            .orElse("0");
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(address + path))
            .header("Content-Type", "application/json")
            .header("X-Tarnish-Token", token)
            .header("X-Tarnish-State", state)
            .POST(HttpRequest.BodyPublishers.ofString(json))
            .build();
    return client.send(request, HttpResponse.BodyHandlers.ofString()).statusCode();
  }

  /** Asks again and again until the status fits, or fails with the last one. */
  JsonNode waitFor(String what, Predicate<JsonNode> condition) throws Exception {
    long endNanos = System.nanoTime() + PATIENCE.toNanos();
    JsonNode last = status();
    while (!condition.test(last)) {
      if (System.nanoTime() > endNanos) {
        throw new AssertionError("waited in vain for: " + what + "; last status: " + last);
      }
      Thread.sleep(50);
      last = status();
    }
    return last;
  }

  JsonNode waitForState(String state) throws Exception {
    return waitFor("state " + state, status -> status.get("state").asText().equals(state));
  }

  /** As a power cut would: no chance to tidy up. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor();
  }

  @Override
  public void close() {
    process.destroy();
    try {
      if (!process.waitFor(20, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      process.destroyForcibly();
    }
  }
}
