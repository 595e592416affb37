package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.Request;

/** What the service gives and takes. */
class WebServiceTest {
  private FakeBench bench;
  private WebService service;
  private Client client;

  @BeforeEach
  void start() {
    bench = new FakeBench(Scene.RUNNING);
    service = FakeWorkshop.serve(bench, 0);
    client = new Client(service.port());
  }

  @AfterEach
  void stop() {
    service.close();
  }

  @Test
  void thePageAndAllItsFilesAreServed() {
    for (String path : new StaticFiles().byPath().keySet()) {
      assertEquals(200, client.get(path).statusCode(), path);
    }
    assertTrue(client.get("/").body().contains("<title>Tarnish</title>"));
    assertTrue(client.get("/uplot/LICENSE").body().contains("MIT"));
  }

  @Test
  void everyAnswerCarriesTheSecurityHeaders() {
    for (String path : List.of("/", "/app.js", "/api/status", "/api/batches/99", "/nowhere")) {
      HttpResponse<String> answer = client.get(path);
      Guard.HEADERS.forEach(
          (name, value) ->
              assertEquals(value, answer.headers().firstValue(name).orElse(""), path + " " + name));
      assertTrue(answer.headers().firstValue("Server").isEmpty());
      assertTrue(answer.headers().firstValue("Access-Control-Allow-Origin").isEmpty());
    }
  }

  @Test
  void theStatusIsGivenAsItIs() {
    JsonNode status = Client.json(client.get("/api/status"));
    assertEquals("running", status.get("state").textValue());
    assertEquals(523.55, status.get("readings").get(0).get("value").doubleValue());
    assertTrue(status.get("readings").get(2).get("value").isNull());
    assertTrue(status.get("ask").isNull());
  }

  @Test
  void batchesAreListedAndOneIsToldInFull() {
    assertEquals(2, Client.json(client.get("/api/batches")).get("batches").size());
    JsonNode batch = Client.json(client.get("/api/batches/1"));
    assertEquals("complete", batch.get("line").get("endState").textValue());
    assertEquals(7, batch.get("head").get("seed").intValue());
    assertEquals(0.0, batch.get("events").get(0).get("seconds").doubleValue());
  }

  @Test
  void aGapInTheReadingsIsNullInEveryCurve() {
    JsonNode history =
        Client.json(client.get("/api/batches/2/history?from=14000&to=16000&columns=100"));
    JsonNode seconds = history.get("seconds");
    assertEquals(100, seconds.size());
    int gaps = 0;
    for (int i = 0; i < seconds.size(); i++) {
      double s = seconds.get(i).doubleValue();
      boolean gap = s >= 15_000 && s < 15_600;
      gaps += gap ? 1 : 0;
      assertEquals(gap, history.get("heater").get(i).isNull(), "heater at " + s);
      for (JsonNode line : history.get("lines")) {
        assertEquals(gap, line.get("least").get(i).isNull(), line.get("channel") + " at " + s);
      }
    }
    assertEquals(30, gaps);
    assertEquals(4, history.get("setpoints").size());
  }

  @Test
  void pulsesAreMarkedInTheColumnsInWhichTheOxygenValveWasOpen() {
    JsonNode history =
        Client.json(client.get("/api/batches/2/history?from=3600&to=3900&columns=300"));
    JsonNode oxygen =
        StreamSupport.stream(history.get("switches").spliterator(), false)
            .filter(each -> each.get("name").textValue().equals("oxygen valve"))
            .findFirst()
            .orElseThrow();
    assertEquals(1, oxygen.get("on").get(0).intValue());
    assertEquals(1, oxygen.get("on").get(119).intValue());
    assertEquals(0, oxygen.get("on").get(120).intValue());
  }

  @Test
  void eventsFromATimeOnAreThoseOnly() {
    JsonNode events = Client.json(client.get("/api/batches/2/events?from=15600")).get("events");
    assertEquals(5, events.size());
    assertEquals(15_600, events.get(0).get("seconds").doubleValue());
  }

  @Test
  void aRecordThatCannotBeMadeIsRefusedInWordsAndLeavesTheServiceWell() {
    for (int again = 0; again < 2; again++) {
      HttpResponse<String> unreadable = client.get("/api/batches/1/record");
      assertEquals(409, unreadable.statusCode());
      assertTrue(unreadable.body().contains("another version"), unreadable.body());
    }
    assertEquals(409, client.get("/api/batches/2/record").statusCode());
    assertEquals(404, client.get("/api/batches/7/record").statusCode());
    assertEquals(405, client.post("/api/batches/1/record", "{}").statusCode());
    assertEquals(200, client.get("/api/status").statusCode());
  }

  @Test
  void everyTypeOfRequestReachesTheQueueAsItWasMeant() {
    for (String type : List.of("pause", "resume", "restart", "stop", "abort")) {
      assertEquals(
          202,
          client
              .post("/api/requests", "{\"type\":\"" + type + "\",\"by\":\" Ada \"}")
              .statusCode());
    }
    client.post("/api/requests", "{\"type\":\"acknowledge\",\"by\":\"Ada\",\"alarm\":\"leak\"}");
    client.post(
        "/api/requests",
        "{\"type\":\"reset\",\"by\":\"Ada\",\"alarm\":\"leak\",\"reason\":\"new seal\"}");
    client.post(
        "/api/requests",
        "{\"type\":\"answer\",\"by\":\"Ada\",\"questionNumber\":4,"
            + "\"values\":{\"mass\":0.002125},\"remark\":\"grey\\nhard\"}");
    assertEquals(
        List.of(
            new Request.Pause("Ada"),
            new Request.Resume("Ada"),
            new Request.Restart("Ada"),
            new Request.Stop("Ada"),
            new Request.Abort("Ada"),
            new Request.Acknowledge("Ada", "leak"),
            new Request.Reset("Ada", "leak", "new seal"),
            new Request.Answer("Ada", 4, Map.of("mass", 0.002125), "grey\nhard")),
        bench.submitted);
  }

  @Test
  void aFullQueueIsSaidAndNotHidden() {
    bench.fillQueue();
    HttpResponse<String> answer =
        client.post("/api/requests", "{\"type\":\"pause\",\"by\":\"Ada\"}");
    assertEquals(429, answer.statusCode());
    assertTrue(answer.body().contains("switch at the bench"));
  }

  @Test
  void aRecipeIsCheckedAndStarted() {
    bench.show(Scene.IDLE);
    assertEquals(2, Client.json(client.get("/api/recipes")).get("recipes").size());
    JsonNode check =
        Client.json(client.post("/api/recipes/check", "{\"recipe\":\"title: copper\"}"));
    assertTrue(check.get("result").textValue().contains("can be run"));
    String start = "{\"recipe\":\"title: copper\",\"by\":\"Ada\",\"answers\":{\"vessel\":\"yes\"}}";
    HttpResponse<String> without =
        client.post("/api/batches", "{\"recipe\":\"title: copper\",\"by\":\"Ada\"}");
    assertEquals(409, without.statusCode());
    assertTrue(without.body().contains("list before the start"));
    assertEquals(202, client.post("/api/batches", start).statusCode());
    assertEquals(List.of("Ada"), bench.started);
    HttpResponse<String> second = client.post("/api/batches", start);
    assertEquals(409, second.statusCode());
    assertEquals("A batch is already running.", Client.json(second).get("error").textValue());
  }

  @Test
  void theMagneticSheetIsWorkedOutAndSlipsInItAreTold() {
    JsonNode fields = Client.json(client.get("/api/magnetic")).get("fields");
    StringBuilder sheet = new StringBuilder("{");
    for (JsonNode field : fields) {
      sheet.append(sheet.length() > 1 ? "," : "").append(field.get("key")).append(':');
      sheet.append(field.get("example"));
    }
    JsonNode result = Client.json(client.post("/api/magnetic", sheet + "}"));
    assertTrue(result.get("lines").toString().contains("Bohr magnetons"), result.toString());
    HttpResponse<String> empty = client.post("/api/magnetic", "{}");
    assertEquals(400, empty.statusCode());
    assertTrue(empty.body().contains("expected"), empty.body());
    assertEquals(400, client.post("/api/magnetic", "{\"mass\":\"1 g\"}").statusCode());
  }

  @Test
  void nothingChangesByGet() {
    for (String path :
        List.of("/api/abort", "/api/requests", "/api/recipes/check", "/api/requests?type=abort")) {
      assertEquals(405, client.get(path).statusCode(), path);
    }
    assertEquals(List.of(), bench.submitted);
  }

  @Test
  void aDefectInsideIsNotToldToThePage() {
    bench.breakDown();
    HttpResponse<String> answer = client.get("/api/status");
    assertEquals(500, answer.statusCode());
    assertFalse(answer.body().contains("secret"));
    assertFalse(answer.body().contains("Exception"));
    assertTrue(Client.json(answer).has("error"));
  }

  @Test
  void onlyAddressesOfThisMachineAreBound() {
    for (String host : List.of("0.0.0.0", "", "192.0.2.7", "::")) {
      assertThrows(IllegalArgumentException.class, () -> WebService.start(bench, host, 0), host);
    }
  }

  @Test
  void theTokenIsAnotherOneAfterEachStart() {
    try (WebService other = WebService.start(bench, "localhost", 0)) {
      String token = client.token();
      assertEquals(64, token.length());
      assertFalse(token.equals(new Client(other.port()).token()));
    }
  }

  @Test
  void aPortThatIsTakenIsSaidWithItsNumber() {
    IllegalStateException e =
        assertThrows(
            IllegalStateException.class,
            () -> WebService.start(bench, "127.0.0.1", service.port()));
    assertTrue(e.getMessage().contains(String.valueOf(service.port())), e.getMessage());
  }

  @Test
  void clientsThatNeverFinishDoNotKeepTheEmergencyOut() throws IOException {
    List<Socket> slow = new ArrayList<>();
    String token = client.token();
    try {
      for (int i = 0; i < 60; i++) {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), service.port());
        slow.add(socket);
        String half =
            i % 2 == 0
                ? "POST /api/requests HTTP/1.1\r\nHost: loc"
                : "POST /api/requests HTTP/1.1\r\nHost: localhost:"
                    + service.port()
                    + "\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{";
        socket.getOutputStream().write(half.getBytes(StandardCharsets.US_ASCII));
        socket.getOutputStream().flush();
      }
      HttpResponse<String> answer =
          client.send(client.write("/api/abort", "").setHeader(Guard.TOKEN_HEADER, token));
      assertEquals(202, answer.statusCode());
      assertTrue(bench.submitted.get(0) instanceof Request.Abort);
    } finally {
      for (Socket socket : slow) {
        socket.close();
      }
    }
  }

  @Test
  void marksTellDosesPausesTripsAndOpeningsAndGoOnFromWhereTheyWereRead() {
    JsonNode all = Client.json(client.get("/api/batches/2/marks"));
    List<String> kinds =
        StreamSupport.stream(all.get("marks").spliterator(), false)
            .map(mark -> mark.get("kind").textValue())
            .toList();
    assertEquals(6, kinds.stream().filter("dose"::equals).count());
    assertEquals(
        List.of("pause", "run", "alarm", "trip", "run", "open", "weighed", "closed"),
        kinds.stream().filter(kind -> !kind.equals("dose")).skip(1).toList());
    double readTo = all.get("readToS").doubleValue();
    assertEquals(19_000.0, readTo);
    bench.journal.add(19_500_000, "StateChanged", "Batch running → pausing: Ada");
    bench.journal.add(19_501_000, "StateChanged", "Batch pausing → paused: Ada");
    JsonNode more = Client.json(client.get("/api/batches/2/marks?from=" + readTo));
    assertEquals(1, more.get("marks").size());
    assertEquals("pause", more.get("marks").get(0).get("kind").textValue());
    assertEquals(400, client.get("/api/batches/2/marks?from=x").statusCode());
  }

  @Test
  void aComparisonNeedsTwoBatchesThatAreThere() {
    for (String query : List.of("", "?batches=", "?batches=1", "?batches=1,x", "?batches=1,9")) {
      assertEquals(400, client.get("/api/compare" + query).statusCode(), query);
    }
    JsonNode table = Client.json(client.get("/api/compare?batches=1,2"));
    assertEquals(2, table.get("batches").size());
    for (JsonNode row : table.get("rows")) {
      assertEquals(2, row.get("values").size());
    }
  }

  @Test
  void exportsAreSentAsFilesAndRecordsOnlyOfBatchesThatHaveEnded() {
    HttpResponse<String> events = client.get("/api/batches/2/record/events");
    assertEquals(200, events.statusCode());
    assertTrue(
        events
            .headers()
            .firstValue("Content-Disposition")
            .orElse("")
            .contains("batch-2-events.csv"));
    assertTrue(events.body().contains("Oxygen pulse 6"));
    for (String form : List.of("", "/pdf", "/json")) {
      assertEquals(409, client.get("/api/batches/2/record" + form).statusCode(), form);
    }
  }

  @Test
  void aTrendIsSentTheChannelsItAsksFor() {
    String history = "/api/batches/2/history?columns=10";
    assertEquals(3, Client.json(client.get(history)).get("lines").size());
    JsonNode lines =
        Client.json(client.get(history + "&channels=vessel%20pressure,nobody")).get("lines");
    assertEquals(1, lines.size());
    assertEquals("VESSEL_PRESSURE", lines.get(0).get("channel").textValue());
  }
}
