package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.StringReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Status;
import tarnish.controller.service.WebService;

/** The printable record of the demonstration batch, rehearsed once with seed 7. */
class RecordTest {
  @TempDir private static Path data;
  @TempDir private static Path to;
  private static String html;
  private static JsonNode json;
  private static List<String> samples;

  @BeforeAll
  static void rehearseAndWrite() throws IOException {
    Ran.well("rehearse", Demo.COPPER, "--rig", Demo.RIG, "--seed", 7, "--data", data);
    Ran.well("record", 1, "--data", data, "--to", to);
    html = Files.readString(to.resolve("batch-1.html"));
    json = new ObjectMapper().readTree(to.resolve("batch-1.json").toFile());
    samples = Files.readAllLines(to.resolve("batch-1-samples.csv"));
  }

  @Test
  void theExportsBesideItAreWhatExportPrints() throws IOException {
    assertEquals(
        Ran.well("export", 1, "--data", data), Files.readString(to.resolve("batch-1-samples.csv")));
    assertEquals(
        Ran.well("export", 1, "--events", "--data", data),
        Files.readString(to.resolve("batch-1-events.csv")));
  }

  @Test
  void everyFileHasTheFingerprintThatIsListed() throws Exception {
    List<String> lines = Files.readAllLines(to.resolve("SHA256SUMS"));
    assertEquals(5, lines.size());
    for (String line : lines) {
      byte[] bytes = Files.readAllBytes(to.resolve(line.substring(66)));
      assertEquals(line.substring(0, 64), sha256(bytes), line);
      boolean printed = line.endsWith("html") || line.endsWith("pdf");
      assertTrue(printed || html.contains(line.substring(0, 64)), line);
    }
    String recipe = Files.readString(Demo.COPPER);
    assertTrue(html.contains(sha256(recipe.getBytes(StandardCharsets.UTF_8))));
  }

  private static String sha256(byte[] bytes) throws Exception {
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
  }

  /** Column by its heading, without empty cells. */
  private static double[] column(String heading) {
    int comments = (int) samples.stream().filter(line -> line.startsWith("#")).count();
    int at = List.of(samples.get(comments).split(",")).indexOf(heading);
    return samples.stream()
        .skip(comments + 1)
        .map(line -> line.split(",", -1)[at])
        .filter(cell -> !cell.isEmpty())
        .mapToDouble(Double::parseDouble)
        .toArray();
  }

  @Test
  void leastAndGreatestReadingsAreThoseOfTheExportOverAllTicks() {
    double[] sample = column("sample temperature [°C]");
    JsonNode told = json.get("readings").get("sample temperature");
    assertEquals(
        Arrays.stream(sample).max().orElseThrow(), told.get("greatest").asDouble() - 273.15, 1e-9);
    assertEquals(
        Arrays.stream(sample).min().orElseThrow(), told.get("least").asDouble() - 273.15, 1e-9);
    assertEquals(sample.length, told.get("count").asInt());
    double[] pressure = column("vessel pressure [mbar]");
    told = json.get("readings").get("vessel pressure");
    assertEquals(
        Arrays.stream(pressure).max().orElseThrow(), told.get("greatest").asDouble() / 100, 1e-9);
    double peak = Arrays.stream(pressure).max().orElseThrow();
    assertTrue(html.contains("<td>" + String.format(Locale.ROOT, "%.1f", peak) + " mbar</td>"));
  }

  @Test
  void countsAndTimesAreThoseOfTheExportedEventsAndOfTheSummary() throws IOException {
    List<String> events = Files.readAllLines(to.resolve("batch-1-events.csv"));
    long pulses = events.stream().filter(line -> line.contains(",PulseGiven,")).count();
    assertEquals(pulses, json.get("oxygenPulses").asLong());
    long marks = Pattern.compile("v-9").matcher(html).results().count();
    assertEquals(pulses, marks);
    JsonNode summary;
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      summary = new ObjectMapper().readTree(journal.batches().get(0).summaryJson());
    }
    for (String name :
        List.of(
            "endState",
            "oxygenUptakeMol",
            "oxygenPerFormulaUnit",
            "conversion",
            "ovenSeconds",
            "equivalentSecondsAtTop")) {
      assertEquals(summary.get(name), json.get(name), name);
    }
    assertEquals(summary.get("soaks").size(), json.get("soaks").size());
    for (int i = 0; i < json.get("soaks").size(); i++) {
      assertEquals(
          summary.get("soaks").get(i).get("inBandSeconds"),
          json.get("soaks").get(i).get("inBandSeconds"));
    }
    assertEquals("", json.get("replayFirstDifference").asText());
    int comments = (int) samples.stream().filter(line -> line.startsWith("#")).count();
    assertEquals(samples.size() - comments - 1, json.get("replayedTicks").asInt());
  }

  @Test
  void weighingsStandWithUptakeAndCompositionInTheWordsOfTheEvents() throws IOException {
    String events = Files.readString(to.resolve("batch-1-events.csv"));
    assertEquals(2, json.get("weighings").size());
    Matcher weighed = Pattern.compile("Weighed (\\(.+?\\) g): (\\S+ ± \\S+) O per").matcher(events);
    while (weighed.find()) {
      assertTrue(html.contains("<td>" + weighed.group(1) + "</td>"), weighed.group(1));
      assertTrue(html.contains("<td>" + weighed.group(2) + "</td>"), weighed.group(2));
    }
    assertEquals("stand-in operator", json.get("people").get(0).get("name").asText());
  }

  @Test
  void thePageNeedsNothingFromElsewhereAndItsPicturesAreWellFormed() throws Exception {
    assertFalse(html.contains("<script"));
    assertFalse(html.contains("src="));
    assertFalse(html.contains("href="));
    assertFalse(html.contains("url("));
    Matcher pictures = Pattern.compile("<svg.*?</svg>", Pattern.DOTALL).matcher(html);
    int found = 0;
    while (pictures.find()) {
      found++;
      DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(pictures.group())));
      assertFalse(pictures.group().contains("NaN"));
    }
    assertEquals(3, found);
  }

  @Test
  void theServiceGivesTheSamePageUnderThePolicyThatAllowsItsStyleOnly() throws Exception {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, Version.text());
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      String address = "http://127.0.0.1:" + web.port() + "/api/batches/1/record";
      HttpResponse<String> page = get(address);
      assertEquals(200, page.statusCode());
      assertEquals(html, page.body());
      assertEquals(html, get(address).body());
      assertEquals(
          "text/html;charset=utf-8",
          page.headers().firstValue("Content-Type").orElse("").replace(" ", ""));
      List<String> policies = page.headers().allValues("Content-Security-Policy");
      assertEquals(1, policies.size());
      assertTrue(policies.get(0).startsWith("default-src 'none'; script-src 'self'"));
      assertTrue(policies.get(0).contains("; style-src 'sha256-"));
      assertFalse(policies.get(0).contains("unsafe"));
      assertEquals(404, get(address.replace("/1/", "/9/")).statusCode());
    }
  }

  @Test
  void aBatchThatHasNotEndedHasNoRecordAtThePageYet(@TempDir Path other) throws Exception {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(other);
        LiveBench bench = LiveBench.start(settings, journal, "test");
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      journal.begin(
          new Journal.BatchHead("a", files.recipeText(), files.rigText(), "now", "invented", 1L));
      HttpResponse<String> answer = get("http://127.0.0.1:" + web.port() + "/api/batches/1/record");
      assertEquals(409, answer.statusCode());
      assertTrue(answer.body().contains("has not ended"));
    }
  }

  /** Longer than any machine needs, so that a wait in vain ends with what was there. */
  private static final long GIVE_UP_NANOS = 60_000_000_000L;

  private static void await(LiveBench bench, Predicate<Status> condition) {
    long since = System.nanoTime();
    while (!condition.test(bench.status())) {
      assertTrue(
          System.nanoTime() - since < GIVE_UP_NANOS,
          () -> bench.status().state() + " " + bench.status().alarms() + bench.status().why());
      Thread.yield();
    }
  }

  @Test
  void anAlarmStandsWithWhatTheProgramAndThePersonDid(@TempDir Path other) throws Exception {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 100, false);
    try (SqliteJournal journal = SqliteJournal.open(other);
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      bench.startBatch(files.recipeText(), "Ann <b>Example</b>");
      await(bench, status -> status.batchMillis() > 10_000);
    }
    try (SqliteJournal journal = SqliteJournal.open(other);
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      await(bench, status -> status.alarms().stream().anyMatch(Status.AlarmLine::mayReset));
      bench.submit(new Request.CheckIn("Ben", 8));
      bench.submit(new Request.Acknowledge("Ben", "power returned"));
      bench.submit(new Request.Reset("Ben", "power returned", "plug found loose"));
      // On a busy machine the watchdog of the loop may raise an alarm of its own.
      await(
          bench,
          status -> status.alarms().stream().noneMatch(a -> a.id().equals("power returned")));
      bench.submit(new Request.Abort("Ben"));
      await(bench, status -> status.state().equals("aborted"));
      // The journal's end follows in the same tick, so a later tick proves it is there.
      long ticks = bench.status().loop().ticks();
      await(bench, status -> status.loop().ticks() > ticks);
    }
    Ran.well("record", 1, "--data", other, "--to", other.resolve("to"));
    JsonNode told =
        new ObjectMapper().readTree(other.resolve("to").resolve("batch-1.json").toFile());
    assertEquals("aborted", told.get("endState").asText());
    JsonNode alarm = told.get("alarms").get(0);
    assertEquals("power returned", alarm.get("id").asText());
    assertTrue(alarm.get("later").toString().contains("acknowledged by Ben"), alarm.toString());
    assertTrue(alarm.get("later").toString().contains("plug found loose"), alarm.toString());
    assertTrue(alarm.get("done").asText().contains("heater"), alarm.toString());
    String page = Files.readString(other.resolve("to").resolve("batch-1.html"));
    assertTrue(page.contains("Ann &lt;b&gt;Example&lt;/b&gt;"));
    assertFalse(page.contains("<b>"));
    assertEquals("", told.get("replayFirstDifference").asText());
  }

  /** Asks again while a record is being made. */
  private static HttpResponse<String> get(String address) throws Exception {
    HttpRequest request = HttpRequest.newBuilder(URI.create(address)).build();
    HttpClient client = HttpClient.newHttpClient();
    HttpResponse<String> answer = client.send(request, HttpResponse.BodyHandlers.ofString());
    while (answer.statusCode() == 202) {
      assertTrue(answer.body().contains("http-equiv=\"refresh\""));
      answer = client.send(request, HttpResponse.BodyHandlers.ofString());
    }
    return answer;
  }
}
