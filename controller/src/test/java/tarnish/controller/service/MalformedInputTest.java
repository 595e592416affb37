package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Whatever comes in over the wire is refused with a sentence, never with a failure inside. */
class MalformedInputTest {
  private static final long SEED = Long.getLong("seed", 20260105L);
  private static final int REQUESTS = 4000;

  private static final List<String> BODIES =
      List.of(
          "{\"type\":\"pause\",\"by\":\"Ada\"}",
          "{\"type\":\"reset\",\"by\":\"Ada\",\"alarm\":\"leak\",\"reason\":\"new seal\"}",
          "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":4,"
              + "\"values\":{\"mass\":0.0021},\"remark\":\"grey\"}",
          "{\"recipe\":\"title: copper\",\"by\":\"Ada\"}");
  private static final List<String> PATHS =
      List.of(
          "/",
          "/api/status",
          "/api/requests",
          "/api/abort",
          "/api/batches",
          "/api/batches/2",
          "/api/batches/2/history?from=0&to=100&columns=50",
          "/api/batches/2/events?from=5",
          "/api/recipes/check");
  private static final List<String> METHODS =
      List.of("POST", "POST", "POST", "GET", "PUT", "DELETE", "HEAD", "OPTIONS", "TRACE", "PoST");

  private static FakeBench bench;
  private static WebService service;
  private static String token;

  @BeforeAll
  static void start() {
    bench = new FakeBench(Scene.RUNNING);
    service = FakeWorkshop.serve(bench, 0);
    token = new Client(service.port()).token();
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  @Test
  void brokenBodiesAreRefusedOrUnderstoodButNeverAFailure() throws IOException {
    SplittableRandom random = new SplittableRandom(SEED);
    String headers = goodHeaders();
    int refused = 0;
    for (int i = 0; i < REQUESTS; i++) {
      byte[] body = broken(random, BODIES.get(random.nextInt(BODIES.size())));
      String path = List.of("/api/requests", "/api/recipes/check").get(random.nextInt(2));
      RawHttp.Answer answer =
          RawHttp.send(service.port(), RawHttp.request("POST", path, headers, body));
      assertExplained(answer, i, new String(body, StandardCharsets.ISO_8859_1));
      refused += answer.status() >= 400 ? 1 : 0;
    }
    assertTrue(refused > REQUESTS / 2, "only " + refused + " were refused, seed " + SEED);
  }

  @Test
  void brokenRequestsAreRefusedOrUnderstoodButNeverAFailure() throws IOException {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    String headers = goodHeaders();
    for (int i = 0; i < REQUESTS; i++) {
      byte[] body = BODIES.get(random.nextInt(BODIES.size())).getBytes(StandardCharsets.UTF_8);
      String method = METHODS.get(random.nextInt(METHODS.size()));
      String path = PATHS.get(random.nextInt(PATHS.size()));
      byte[] whole = RawHttp.request(method, path, headers, body);
      byte[] request = broken(random, new String(whole, StandardCharsets.ISO_8859_1));
      RawHttp.Answer answer = RawHttp.send(service.port(), request);
      assertExplained(answer, i, new String(request, StandardCharsets.ISO_8859_1));
    }
    assertEquals(200, new Client(service.port()).get("/api/status").statusCode());
  }

  private static String goodHeaders() {
    return "Host: 127.0.0.1:"
        + service.port()
        + "\r\nContent-Type: application/json\r\n"
        + Guard.TOKEN_HEADER
        + ": "
        + token
        + "\r\n";
  }

  private static void assertExplained(RawHttp.Answer answer, int number, String sent) {
    String which = "request " + number + ", seed " + SEED + ": " + sent + "\n->" + answer.all();
    assertFalse(answer.status() >= 500, which);
    assertFalse(answer.all().contains("Exception"), which);
    assertFalse(answer.all().contains("\tat "), which);
    if (answer.status() >= 400) {
      assertTrue(answer.hasHeader("X-Content-Type-Options: nosniff"), which);
      assertTrue(answer.hasHeader("Content-Security-Policy: default-src 'none'"), which);
    }
  }

  /** One to three changes: a byte turned, cut out, put in, a piece doubled, the end cut off. */
  private static byte[] broken(SplittableRandom random, String text) {
    byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
    int changes = 1 + random.nextInt(3);
    for (int i = 0; i < changes && bytes.length > 0; i++) {
      int at = random.nextInt(bytes.length);
      int to = StrictMath.min(bytes.length, at + random.nextInt(12));
      bytes =
          switch (random.nextInt(5)) {
            case 0 -> joined(bytes, at, new byte[] {(byte) random.nextInt(256)}, at + 1);
            case 1 -> joined(bytes, at, new byte[0], to);
            case 2 -> joined(bytes, at, new byte[] {(byte) random.nextInt(256)}, at);
            case 3 -> joined(bytes, to, new byte[0], at);
            default -> joined(bytes, at, new byte[0], bytes.length);
          };
    }
    return bytes;
  }

  private static byte[] joined(byte[] bytes, int headEnd, byte[] between, int tailStart) {
    int tail = bytes.length - tailStart;
    byte[] all = new byte[headEnd + between.length + tail];
    System.arraycopy(bytes, 0, all, 0, headEnd);
    System.arraycopy(between, 0, all, headEnd, between.length);
    System.arraycopy(bytes, tailStart, all, headEnd + between.length, tail);
    return all;
  }
}
