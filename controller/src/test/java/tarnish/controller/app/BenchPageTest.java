package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.BenchNote;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;

/** The bench page's interface, from the first look to a calibration that outlives a restart. */
class BenchPageTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final double SPEED = 400;
  private static final long PATIENCE_NANOS = 60_000_000_000L;

  @TempDir Path folder;

  private final String rigText = LoadedFiles.text(Demo.RIG);
  private final RigDescription rig = LoadedFiles.rig("rig", rigText);
  private final SimulatedRig plant = new SimulatedRig(rig, NoBatch.recipe(rig), 1);
  private final HttpClient http = HttpClient.newHttpClient();
  private String address;
  private String token;

  private LiveBench start(SqliteJournal journal) {
    LiveBench.Settings settings =
        new LiveBench.Settings(
            rig,
            rigText,
            Map.of(),
            1,
            SPEED,
            false,
            (description, recipe, seed, before) -> new SimulatedBench(plant));
    return LiveBench.start(settings, journal, "test");
  }

  private void serveAt(int port) throws IOException, InterruptedException {
    address = "http://127.0.0.1:" + port;
    token = get("/api/session").get("token").asText();
  }

  private JsonNode get(String path) throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(address + path)).build();
    return JSON.readTree(http.send(request, BodyHandlers.ofString()).body());
  }

  private int post(String path, String body) throws IOException, InterruptedException {
    HttpRequest look = HttpRequest.newBuilder(URI.create(address + "/api/status")).build();
    String state =
        http.send(look, BodyHandlers.discarding())
            .headers()
            .firstValue("X-Tarnish-State")
            .orElse("");
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(address + path))
            .header("Content-Type", "application/json")
            .header("X-Tarnish-Token", token)
            .header("X-Tarnish-State", state)
            .POST(BodyPublishers.ofString(body))
            .build();
    return http.send(request, BodyHandlers.ofString()).statusCode();
  }

  /** Asks and waits until the bench has dealt with it. */
  private JsonNode ask(String fields) throws IOException, InterruptedException {
    long before = get("/api/bench").get("asks").asLong();
    assertEquals(202, post("/api/bench", "{\"by\":\"Ann Example\"," + fields + "}"));
    return await("/api/bench", view -> view.get("asks").asLong() > before);
  }

  private JsonNode await(String path, Predicate<JsonNode> condition)
      throws IOException, InterruptedException {
    long end = System.nanoTime() + PATIENCE_NANOS;
    JsonNode now = get(path);
    while (!condition.test(now)) {
      assertTrue(System.nanoTime() < end, now::toString);
      now = get(path);
    }
    return now;
  }

  private void checkIn() throws IOException, InterruptedException {
    post("/api/requests", "{\"type\":\"checkIn\",\"by\":\"Ann Example\",\"hours\":12}");
    await("/api/status", status -> status.get("presence").get("attended").asBoolean());
    long ticks = get("/api/status").get("loop").get("ticks").asLong();
    await("/api/status", status -> status.get("loop").get("ticks").asLong() > ticks + 45);
  }

  private double pressurePa() throws IOException, InterruptedException {
    for (JsonNode line : get("/api/status").get("readings")) {
      if (line.get("channel").asText().equals("vessel pressure")) {
        return line.get("value").asDouble();
      }
    }
    throw new AssertionError("no vessel pressure");
  }

  @Test
  void aCalibrationAcceptedAtThePageChangesTheReadingFromThenOnAndSurvivesARestart()
      throws Exception {
    double before;
    double after;
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      checkIn();
      before = pressurePa();
      // The gauge is told that the room is 20 mbar more than it shows, and that vacuum is vacuum.
      String high = "%.1f mbar ± 0.5 mbar".formatted(before / 100 + 20);
      JsonNode view =
          ask(
              "\"type\":\"mark\",\"channel\":\"vessel pressure\",\"upper\":1,\"reference\":\""
                  + high
                  + "\"");
      assertEquals("The upper point is taken.", view.get("answer").asText());
      evacuate();
      view =
          ask(
              "\"type\":\"mark\",\"channel\":\"vessel pressure\",\"upper\":0,"
                  + "\"reference\":\"0.3 mbar ± 0.3 mbar\"");
      assertEquals("The lower point is taken.", view.get("answer").asText());
      assertTrue(view.get("draft").get("result").asText().startsWith("gain 1.0"), view.toString());
      fill();
      double evenBefore = pressurePa();
      view = ask("\"type\":\"accept\"");
      assertEquals("Kept, and in use from now on.", view.get("answer").asText());
      assertEquals("vessel pressure", view.get("calibrations").get(0).get("channel").asText());
      long ticks = bench.status().loop().ticks();
      await("/api/status", status -> status.get("loop").get("ticks").asLong() > ticks + 8);
      after = pressurePa();
      assertEquals(2000 * evenBefore / before, after - evenBefore, 150);
      assertTrue(
          journal.benchNotes(100).stream()
              .map(BenchNote::sentence)
              .anyMatch(it -> it.startsWith("Calibrated the vessel pressure: low shows")));
    }
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      await("/api/status", status -> status.get("loop").get("ticks").asLong() > 8);
      assertEquals(after, pressurePa(), 150);
      JsonNode kept = get("/api/bench").get("calibrations").get(0);
      assertTrue(kept.get("date").asText().startsWith("20"), kept.toString());
      assertTrue(kept.get("uncertainty").asText().contains("mbar"), kept.toString());
    }
  }

  private void evacuate() throws IOException, InterruptedException {
    JsonNode view = ask("\"type\":\"begin\",\"trial\":\"evacuate\"");
    String question = view.get("trial").get("question").asText();
    ask("\"type\":\"confirm\",\"question\":\"" + question + "\"");
    await("/api/bench", it -> it.get("trial").get("ended").asBoolean());
    assertTrue(pressurePa() < 200, "not evacuated");
    long ticks = get("/api/status").get("loop").get("ticks").asLong();
    await("/api/status", status -> status.get("loop").get("ticks").asLong() > ticks + 45);
  }

  /** Half a room's pressure, by pulses of the inert valve. */
  private void fill() throws IOException, InterruptedException {
    for (int i = 0; i < 8; i++) {
      JsonNode view = ask("\"type\":\"begin\",\"trial\":\"pulse inert gas valve\"");
      String question = view.get("trial").get("question").asText();
      ask("\"type\":\"confirm\",\"question\":\"" + question + "\"");
      await("/api/bench", it -> it.get("trial").get("ended").asBoolean());
    }
  }

  @Test
  void nothingIsSwitchedWithoutAYesToTheVeryQuestion() throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      checkIn();
      ask("\"type\":\"begin\",\"trial\":\"pulse heater\"");
      JsonNode view = ask("\"type\":\"confirm\",\"question\":\"Pulse something?\"");
      assertEquals("That question is not open any more.", view.get("answer").asText());
      long ticks = bench.status().loop().ticks();
      await("/api/status", status -> status.get("loop").get("ticks").asLong() > ticks + 100);
      assertEquals(0, plant.heaterW());
      assertFalse(get("/api/bench").get("trial").get("ended").asBoolean());
    }
  }

  @Test
  void onlyWhoIsAtTheBenchCanSayYes() throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      checkIn();
      JsonNode view = ask("\"type\":\"begin\",\"trial\":\"pulse heater\"");
      String yes =
          ",\"type\":\"confirm\",\"question\":\""
              + view.get("trial").get("question").asText()
              + "\"}";
      long before = view.get("asks").asLong();
      assertEquals(202, post("/api/bench", "{\"by\":\"Ben Example\"" + yes));
      view = await("/api/bench", it -> it.get("asks").asLong() > before);
      assertEquals(
          "Only Ann Example, who is at the bench, can say yes to that.",
          view.get("answer").asText());
      assertEquals(0, plant.heaterW());
    }
  }

  @Test
  void noBatchStartsDuringATrialAndNoTrialDuringABatch() throws Exception {
    LoadedFiles files = Demo.copper();
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      checkIn();
      ask("\"type\":\"begin\",\"trial\":\"pulse heater\"");
      assertEquals(
          Optional.of("The bench is being checked: end the trial on the bench page first."),
          bench.startBatch(files.recipeText(), "Ann Example"));
      ask("\"type\":\"leave\"");
      assertEquals(Optional.empty(), bench.startBatch(files.recipeText(), "Ann Example"));
      await("/api/status", status -> status.get("state").asText().equals("running"));
      JsonNode view = ask("\"type\":\"begin\",\"trial\":\"pulse heater\"");
      assertEquals(
          "A batch runs: the bench is checked when none does.", view.get("answer").asText());
      assertFalse(view.get("free").asBoolean());
    }
  }

  @Test
  void everyChannelIsShownWithQualityNoiseRateAndLatencyWhereItHasOne() throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      checkIn();
      JsonNode channels = get("/api/bench").get("channels");
      assertEquals(rig.sensors().size(), channels.size());
      for (JsonNode line : channels) {
        assertEquals("100 % good", line.get("quality").asText());
        assertEquals("4.0 /s", line.get("answers").asText());
      }
      assertEquals(6, count(get("/api/bench").get("trials"), "pulse"));
      assertEquals(Switch.values().length - 1, count(get("/api/bench").get("trials"), "pulse"));
    }
  }

  private static int count(JsonNode trials, String group) {
    int count = 0;
    for (JsonNode each : trials) {
      count += each.get("group").asText().equals(group) ? 1 : 0;
    }
    return count;
  }

  @Test
  void aMalformedAskIsRefusedAtTheDoor() throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(folder);
        LiveBench bench = start(journal);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      serveAt(web.port());
      assertEquals(400, post("/api/bench", "{\"by\":\"A\",\"type\":\"energise\"}"));
      assertEquals(400, post("/api/bench", "{\"type\":\"note\"}"));
      assertEquals(413, post("/api/bench", " ".repeat(5000)));
      token = "wrong";
      assertEquals(403, post("/api/bench", "{\"by\":\"A\",\"type\":\"note\"}"));
    }
  }
}
