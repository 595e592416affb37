package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.Request;

/** Every rule that keeps others out, with a request that must be refused. */
class RefusedWritesTest {
  private static final String PAUSE = "{\"type\":\"pause\",\"by\":\"Ada\"}";

  private FakeBench bench;
  private WebService service;
  private Client client;
  private String token;

  @BeforeEach
  void start() {
    bench = new FakeBench(Scene.RUNNING);
    service = FakeWorkshop.serve(bench, 0);
    client = new Client(service.port());
    token = client.token();
  }

  @AfterEach
  void stop() {
    service.close();
  }

  private void assertRefused(int status, HttpResponse<String> answer) {
    assertEquals(status, answer.statusCode(), answer.body());
    String error = Client.json(answer).get("error").textValue();
    assertTrue(error.endsWith("."), "not a sentence: " + error);
    assertFalse(error.contains("Exception"), error);
    assertEquals(List.of(), bench.submitted);
    assertEquals(List.of(), bench.started);
  }

  private RawHttp.Answer raw(String method, String path, String headers, String body)
      throws IOException {
    byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
    return RawHttp.send(service.port(), RawHttp.request(method, path, headers, bytes));
  }

  @Test
  void withoutATokenOrWithAWrongOne() {
    assertRefused(403, client.send(client.write("/api/requests", PAUSE)));
    for (String wrong : List.of("", "0".repeat(64), token.substring(1), token + "0")) {
      assertRefused(
          403,
          client.send(client.write("/api/requests", PAUSE).setHeader(Guard.TOKEN_HEADER, wrong)));
    }
  }

  @Test
  void fromAPageOfAnotherSite() {
    for (String origin :
        List.of("http://example.org", "null", "http://127.0.0.1:1", "https://127.0.0.1")) {
      assertRefused(
          403,
          client.send(
              client
                  .write("/api/requests", PAUSE)
                  .setHeader(Guard.TOKEN_HEADER, token)
                  .setHeader("Origin", origin)));
    }
    for (String site : List.of("cross-site", "same-site", "nonsense")) {
      assertRefused(
          403,
          client.send(
              client
                  .write("/api/requests", PAUSE)
                  .setHeader(Guard.TOKEN_HEADER, token)
                  .setHeader("Sec-Fetch-Site", site)));
    }
  }

  @Test
  void underANameThatIsNotThisMachine() throws IOException {
    for (String host :
        List.of(
            "example.org",
            "example.org:" + service.port(),
            "127.0.0.1",
            "127.0.0.1:1",
            "127.0.0.1.example.org:" + service.port())) {
      String headers = "Host: " + host + "\r\n";
      RawHttp.Answer read = raw("GET", "/api/status", headers, "");
      assertEquals(403, read.status(), host);
      assertFalse(read.all().contains("running"), host);
      assertEquals(403, raw("GET", "/", headers, "").status(), host);
      assertEquals(
          403,
          raw("POST", "/api/abort", headers + Guard.TOKEN_HEADER + ": \r\n", "").status(),
          host);
    }
    assertEquals(List.of(), bench.submitted);
  }

  @Test
  void withoutAnyHostOrWithTwo() throws IOException {
    assertEquals(400, raw("GET", "/api/status", "", "").status());
    String twice = "Host: localhost:" + service.port() + "\r\nHost: example.org\r\n";
    assertEquals(400, raw("GET", "/api/status", twice, "").status());
  }

  @Test
  void asAnythingButJson() {
    for (String type : List.of("text/plain", "application/x-www-form-urlencoded", "json", "")) {
      assertRefused(
          415,
          client.send(
              client
                  .write("/api/requests", PAUSE)
                  .setHeader(Guard.TOKEN_HEADER, token)
                  .setHeader("Content-Type", type)));
    }
  }

  @Test
  void ofMoreThanTheyMayHold() {
    String tooLong = "{\"type\":\"pause\",\"by\":\"" + "a".repeat(20_000) + "\"}";
    assertRefused(413, client.post("/api/requests", tooLong));
    assertRefused(
        413, client.post("/api/recipes/check", "{\"recipe\":\"" + "a".repeat(300_000) + "\"}"));
    assertRefused(
        400, client.post("/api/recipes/check", "{\"recipe\":\"" + "a".repeat(100_001) + "\"}"));
  }

  @Test
  void thatAreNotOneJsonDocument() {
    for (String body :
        List.of(
            "",
            "{",
            "null",
            "[]",
            "\"pause\"",
            PAUSE + PAUSE,
            "{'type':'pause'}",
            "{\"type\":\"pause\",\"type\":\"stop\",\"by\":\"Ada\"}",
            "[".repeat(5000))) {
      assertRefused(400, client.post("/api/requests", body));
    }
  }

  @Test
  void ofATypeThatDoesNotComeFromTheWeb() {
    for (String type :
        List.of("PowerReturned", "powerReturned", "start", "Pause", "", "toString")) {
      assertRefused(
          400,
          client.post("/api/requests", "{\"type\":\"" + type + "\",\"by\":\"Ada\",\"outageS\":1}"));
    }
    assertRefused(400, client.post("/api/requests", "{\"by\":\"Ada\"}"));
    assertRefused(400, client.post("/api/requests", "{\"type\":7,\"by\":\"Ada\"}"));
  }

  @Test
  void withAFieldMissingUnknownOrOfTheWrongKind() {
    for (String body :
        List.of(
            "{\"type\":\"pause\"}",
            "{\"type\":\"pause\",\"by\":\"  \"}",
            "{\"type\":\"pause\",\"by\":null}",
            "{\"type\":\"pause\",\"by\":5}",
            "{\"type\":\"pause\",\"by\":\"A\\u0000\"}",
            "{\"type\":\"pause\",\"by\":\"A\\nB\"}",
            "{\"type\":\"pause\",\"by\":\"A\\u202eB\"}",
            "{\"type\":\"pause\",\"by\":\"A\\ud800\"}",
            "{\"type\":\"pause\",\"by\":\"" + "a".repeat(61) + "\"}",
            "{\"type\":\"pause\",\"by\":\"Ada\",\"force\":true}",
            "{\"type\":\"reset\",\"by\":\"Ada\",\"alarm\":\"leak\"}",
            "{\"type\":\"reset\",\"by\":\"Ada\",\"alarm\":\"leak\",\"reason\":\"\"}",
            "{\"type\":\"answer\",\"by\":\"Ada\",\"values\":{}}",
            "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":1.5}",
            "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":-1}",
            "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":99999999999}")) {
      assertRefused(400, client.post("/api/requests", body));
    }
  }

  @Test
  void withANumberThatIsNotFinite() {
    for (String number : List.of("NaN", "Infinity", "1e999", "-1e999", "\"1\"", "null", "[1]")) {
      String body =
          "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":1,\"values\":{\"mass\":"
              + number
              + "}}";
      assertRefused(400, client.post("/api/requests", body));
    }
  }

  @Test
  void butTheEmergencyNeedsNoCurrentTokenNoNameAndNoBody() throws IOException {
    String host = "Host: 127.0.0.1:" + service.port() + "\r\n";
    String header = Guard.TOKEN_HEADER + ": from before the restart\r\n";
    assertEquals(403, raw("POST", "/api/abort", host, "").status());
    assertEquals(
        403,
        raw("POST", "/api/abort", host + header + "Origin: http://example.org\r\n", "").status());
    assertEquals(List.of(), bench.submitted);
    assertEquals(202, raw("POST", "/api/abort", host + header, "").status());
    assertTrue(bench.submitted.get(0) instanceof Request.Abort);
  }

  @Test
  void orReadsOutOfTheirRange() {
    for (String path :
        List.of(
            "/api/batches/0",
            "/api/batches/-1",
            "/api/batches/x",
            "/api/batches/99999999999999999999",
            "/api/batches/2/events?from=NaN",
            "/api/batches/2/events?from=-1",
            "/api/batches/2/history?from=5&to=5",
            "/api/batches/2/history?from=6&to=5",
            "/api/batches/2/history?from=1e999&to=5",
            "/api/batches/2/history?from=0&to=Infinity",
            "/api/batches/2/history?from=0&to=5&columns=0",
            "/api/batches/2/history?from=0&to=5&columns=2001")) {
      assertRefused(400, client.get(path));
    }
    assertRefused(404, client.get("/api/batches/3"));
    assertRefused(404, client.get("/api/nothing"));
    assertRefused(404, client.get("/web-ui/index.html"));
    assertRefused(404, client.get("/logback.xml"));
  }
}
