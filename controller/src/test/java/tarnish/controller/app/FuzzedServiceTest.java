package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.access.PasswordHash;
import tarnish.controller.access.PeopleFile;
import tarnish.controller.access.Person;
import tarnish.controller.access.Role;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;
import tarnish.controller.service.WebSettings;

/**
 * Whatever comes in is answered with a sentence: never a 5xx, never a trace of the inside. The real
 * bench, journal, library and readers stand behind it. So many with {@code -Dfuzz.requests=100000}.
 */
class FuzzedServiceTest {
  private static final long SEED = Long.getLong("seed", 20_261_125L);
  private static final int REQUESTS = Integer.getInteger("fuzz.requests", 2000);
  private static final String PERSON = "Ada Example";
  private static final String PASSWORD = "grey cake, broken twice";
  private static final ObjectMapper JSON = new ObjectMapper();

  private static final Map<String, List<String>> BODIES =
      Map.ofEntries(
          Map.entry(
              "/api/requests",
              List.of(
                  "{\"type\":\"pause\",\"by\":\"Ada\"}",
                  "{\"type\":\"checkIn\",\"by\":\"Ada\",\"hours\":4}",
                  "{\"type\":\"note\",\"by\":\"Ada\",\"remark\":\"grey\"}",
                  "{\"type\":\"reset\",\"by\":\"Ada\",\"alarm\":\"leak\",\"reason\":\"seal\"}",
                  "{\"type\":\"shelve\",\"by\":\"Ada\",\"alarm\":\"leak\",\"minutes\":5,\"reason\":\"x\"}",
                  "{\"type\":\"loss\",\"by\":\"Ada\",\"leftKg\":0.003,\"lostKg\":0,\"remark\":\"\"}",
                  "{\"type\":\"vesselChange\",\"by\":\"A\",\"hotM3\":2e-4,\"hotUncertaintyM3\":1e-6,"
                      + "\"coldM3\":8e-5,\"coldUncertaintyM3\":1e-6,\"remark\":\"\"}",
                  "{\"type\":\"sourceChange\",\"by\":\"A\",\"oxygenFraction\":0.9,"
                      + "\"uncertainty\":0.01,\"supplyPa\":2e5,\"remark\":\"\"}",
                  "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":1,"
                      + "\"values\":{\"mass of solid\":0.004},\"remark\":\"grey\"}")),
          Map.entry(
              "/api/corrections",
              List.of("{\"by\":\"A\",\"ofSeconds\":12.5,\"former\":\"x\",\"remark\":\"y\"}")),
          Map.entry(
              "/api/changes",
              List.of(
                  "{\"type\":\"skipSoak\",\"by\":\"A\",\"position\":5,\"reason\":\"r\"}",
                  "{\"type\":\"changeStep\",\"by\":\"A\",\"position\":7,"
                      + "\"values\":{\"for\":9000},\"reason\":\"r\"}")),
          Map.entry(
              "/api/changes/preview",
              List.of(
                  "{\"type\":\"changeStep\",\"by\":\"A\",\"position\":7,"
                      + "\"values\":{\"for\":9000,\"at\":420},\"reason\":\"r\"}")),
          Map.entry(
              "/api/recipes/check",
              List.of("{\"recipe\":\"recipe: x\\ncharge: {formula: Cu, mass: 4 g}\\nsteps: []\"}")),
          Map.entry(
              "/api/recipes",
              List.of(
                  "{\"name\":\"fuzz\",\"recipe\":\"recipe: x\",\"basedOn\":0,\"by\":\"A\","
                      + "\"remark\":\"\"}")),
          Map.entry(
              "/api/batches",
              List.of(
                  "{\"recipe\":\"recipe: x\",\"by\":\"Ada\",\"answers\":{\"vessel\":\"yes\"}}")),
          Map.entry("/api/login", List.of("{\"name\":\"Nobody\",\"password\":\"x\"}")));

  private static final List<String> LOOKS =
      List.of(
          "/api/status",
          "/api/acts",
          "/api/session",
          "/api/recipes",
          "/api/changes",
          "/api/batches",
          "/api/batches/1",
          "/api/batches/1/events?from=5",
          "/api/batches/1/ledger",
          "/api/batches/1/record",
          "/api/batches/1/history?from=0&to=100&columns=50",
          "/api/recipes/copper-oxide/1",
          "/api/recipes/copper-oxide/1/differences?from=1",
          "/api/rehearsals/abc",
          "/api/photos/" + "ab".repeat(32),
          "/metrics",
          "/style.css",
          "/");

  @TempDir private Path data;

  private final HttpClient http = HttpClient.newHttpClient();
  private final SplittableRandom random = new SplittableRandom(SEED);
  private final Map<Integer, Integer> statuses = new TreeMap<>();
  private int again;
  private LongSupplier state;

  /** A way in: address, cookie and token. */
  private record Way(String base, String cookie, String token) {}

  @Test
  void nothingThatComesInMakesTheServiceFail() throws Exception {
    LiveBench.Settings settings =
        new LiveBench.Settings(
            LoadedFiles.rig(DemoCommand.RIG, DemoCommand.resource(DemoCommand.RIG)),
            DemoCommand.resource(DemoCommand.RIG),
            Map.of("copper-oxide.recipe.yaml", DemoCommand.resource(DemoCommand.RECIPE)),
            1,
            20,
            false);
    Path people = data.resolve("people.txt");
    new PeopleFile(people)
        .write(List.of(new Person(PERSON, Role.OPERATE, PasswordHash.of(PASSWORD.toCharArray()))));
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      LiveWorkshop workshop = LiveWorkshop.open(bench, settings.recipes(), data);
      state = bench.changes()::version;
      bench.startBatch(DemoCommand.resource(DemoCommand.RECIPE), "fuzz");
      try (WebService open = serve(bench, workshop, Optional.empty());
          WebService closed = serve(bench, workshop, Optional.of(people))) {
        Way local = local(open);
        Way signedIn = signedIn(closed);
        Way stranger = new Way(signedIn.base(), "", local.token());
        List<Way> ways = List.of(local, local, signedIn, signedIn, stranger);
        for (int i = 0; i < REQUESTS; i++) {
          one(ways.get(random.nextInt(ways.size())), i);
        }
        assertTrue(send(local, get("/api/status", local)).statusCode() == 200);
      }
    }
    System.out.println(
        "Fuzzed requests: "
            + REQUESTS
            + ", seed "
            + SEED
            + ", answers by status "
            + statuses
            + ", sent again on a new line: "
            + again);
    int refused =
        statuses.entrySet().stream()
            .filter(e -> e.getKey() >= 400)
            .mapToInt(Map.Entry::getValue)
            .sum();
    int taken = statuses.getOrDefault(200, 0) + statuses.getOrDefault(202, 0);
    assertTrue(refused > REQUESTS / 2, statuses.toString());
    assertTrue(taken > REQUESTS / 50, statuses.toString());
  }

  private static WebService serve(LiveBench bench, LiveWorkshop workshop, Optional<Path> people) {
    return WebService.start(
        bench,
        Optional.of(workshop),
        new WebSettings("127.0.0.1", 0, List.of(), false, people, false, WebSettings::millis));
  }

  private Way local(WebService service) throws IOException, InterruptedException {
    Way bare = new Way("http://127.0.0.1:" + service.port(), "", "");
    String session = send(bare, get("/api/session", bare)).body();
    return new Way(bare.base(), "", JSON.readTree(session).get("token").asText());
  }

  private Way signedIn(WebService service) throws IOException, InterruptedException {
    String base = "http://127.0.0.1:" + service.port();
    String body = JSON.writeValueAsString(Map.of("name", PERSON, "password", PASSWORD));
    HttpResponse<String> answer =
        send(
            new Way(base, "", "none"),
            HttpRequest.newBuilder(URI.create(base + "/api/login"))
                .header("X-Tarnish-Token", "none")
                .header("Content-Type", "application/json")
                .POST(BodyPublishers.ofString(body)));
    return new Way(
        base,
        answer.headers().firstValue("Set-Cookie").orElseThrow().split(";")[0],
        JSON.readTree(answer.body()).get("token").asText());
  }

  private HttpRequest.Builder get(String path, Way way) {
    return HttpRequest.newBuilder(URI.create(way.base() + path));
  }

  private HttpResponse<String> send(Way way, HttpRequest.Builder request)
      throws IOException, InterruptedException {
    if (!way.cookie().isEmpty()) {
      request.header("Cookie", way.cookie());
    }
    HttpRequest built = request.build();
    try {
      return http.send(built, BodyHandlers.ofString());
    } catch (IOException e) {
      // A refused body is not read to its end, so the line is cut; the next one must work.
      again++;
      return http.send(built, BodyHandlers.ofString());
    }
  }

  private void one(Way way, int i) throws IOException, InterruptedException {
    boolean look = random.nextInt(4) == 0;
    List<String> paths = new ArrayList<>(new TreeMap<>(BODIES).keySet());
    String path = look ? look() : paths.get(random.nextInt(paths.size()));
    byte[] body = look ? new byte[0] : body(path);
    HttpRequest.Builder request;
    try {
      request = HttpRequest.newBuilder(URI.create(way.base() + path));
    } catch (IllegalArgumentException e) {
      return;
    }
    String method =
        random.nextInt(30) == 0
            ? List.of("PUT", "DELETE", "PATCH", "OPTIONS", "HEAD", "QUERY").get(random.nextInt(6))
            : look ? "GET" : "POST";
    request.method(
        method, body.length == 0 ? BodyPublishers.noBody() : BodyPublishers.ofByteArray(body));
    headers(request, way);
    HttpResponse<String> answer = send(way, request);
    statuses.merge(answer.statusCode(), 1, Integer::sum);
    String told =
        "request "
            + i
            + ", seed "
            + SEED
            + ": "
            + method
            + " "
            + path
            + " with "
            + new String(body, StandardCharsets.ISO_8859_1)
            + " gave "
            + answer.statusCode()
            + " "
            + answer.body();
    assertTrue(answer.statusCode() < 500, told);
    if (answer.statusCode() >= 400) {
      assertFalse(answer.body().contains("Exception"), told);
      assertFalse(answer.body().contains("\tat "), told);
      assertFalse(answer.body().contains("java."), told);
      assertTrue(
          method.equals("HEAD") || JSON.readTree(answer.body()).get("error").asText().length() > 5,
          told);
    }
  }

  private void headers(HttpRequest.Builder request, Way way) {
    request.header("X-Tarnish-Token", random.nextInt(40) == 0 ? junk(20) : way.token());
    request.header(
        "Content-Type", random.nextInt(40) == 0 ? "text/" + junk(5) : "application/json");
    int kind = random.nextInt(20);
    String decidedOn =
        kind < 2 ? junk(18) : kind < 4 ? "9".repeat(random.nextInt(1, 17)) : "" + state.getAsLong();
    if (kind != 19) {
      request.header("X-Tarnish-State", decidedOn);
    }
    if (random.nextBoolean()) {
      request.header("X-Tarnish-Page", random.nextInt(5) == 0 ? junk(80) : "page-of-the-fuzzer");
    }
  }

  /** Printable, as a header must be. */
  private String junk(int lengthMax) {
    StringBuilder text = new StringBuilder("x");
    for (int i = random.nextInt(lengthMax); i > 0; i--) {
      text.append((char) random.nextInt('!', '~'));
    }
    return text.toString();
  }

  private String look() {
    String path = LOOKS.get(random.nextInt(LOOKS.size()));
    if (random.nextInt(3) > 0) {
      return path;
    }
    StringBuilder broken = new StringBuilder(path);
    for (int i = random.nextInt(1, 4); i > 0; i--) {
      int at = random.nextInt(1, broken.length() + 1);
      String piece =
          List.of(
                  "%00",
                  "%2e%2e%2f",
                  "-",
                  "9".repeat(20),
                  "NaN",
                  "%F0%9F%98%80",
                  "//",
                  "?",
                  "&to=",
                  "%ff",
                  "..;")
              .get(random.nextInt(11));
      broken.insert(at, piece);
    }
    return broken.toString();
  }

  private byte[] body(String path) throws IOException {
    List<String> good = BODIES.get(path);
    String text = good.get(random.nextInt(good.size()));
    if (random.nextInt(10) == 0) {
      return text.getBytes(StandardCharsets.UTF_8);
    }
    if (random.nextBoolean()) {
      ObjectNode node = (ObjectNode) JSON.readTree(text);
      for (int i = random.nextInt(1, 3); i > 0; i--) {
        spoil(node);
      }
      return JSON.writeValueAsBytes(node);
    }
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    for (int i = random.nextInt(1, 6); i > 0 && bytes.length > 1; i--) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    return random.nextInt(4) == 0
        ? java.util.Arrays.copyOf(bytes, random.nextInt(bytes.length))
        : bytes;
  }

  /** One field gone, strange, or too many. */
  private void spoil(ObjectNode node) throws IOException {
    List<String> names = new ArrayList<>();
    for (Iterator<String> all = node.fieldNames(); all.hasNext(); ) {
      names.add(all.next());
    }
    String name = names.isEmpty() ? "by" : names.get(random.nextInt(names.size()));
    List<String> strange =
        List.of(
            "null",
            "true",
            "-1",
            "0",
            "1e308",
            "-1e308",
            "1e-320",
            "99999999999999999999",
            "\"\"",
            "\" \"",
            "\"\\u0000\"",
            "\"\\ud800\"",
            "\"\\u202e\"",
            "[]",
            "{}",
            "[[1]]",
            "{\"a\":{\"b\":{\"c\":1}}}",
            "{\"for\":-5}",
            "{\"for\":1e300,\"at\":0}",
            "\"" + "a".repeat(random.nextInt(1, 3000)) + "\"",
            "\"skipSoak\"",
            "\"abort\"",
            "\"<script>alert(1)</script>\"",
            "\"'; DROP TABLE batch; --\"",
            "2147483648",
            "\"recipe: [a, {b: *c}]\\nsteps: !!x &c\"",
            "\"recipe: x\\n\\tsteps: 5\"");
    switch (random.nextInt(4)) {
      case 0 -> node.remove(name);
      case 1 -> node.set("more" + random.nextInt(9), JSON.readTree("1"));
      default -> node.set(name, JSON.readTree(strange.get(random.nextInt(strange.size()))));
    }
  }
}
