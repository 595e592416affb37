package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Proof tests as the page sees and notes them. */
class ProofRoutesTest {
  private final List<String> noted = new ArrayList<>();
  private FakeBench bench;
  private WebService service;
  private Client client;

  private final ProofTests tests =
      new ProofTests() {
        @Override
        public List<Line> lines() {
          return List.of(
              new Line("door open", "", "never tested", "", "", true, "Open the door.", true));
        }

        @Override
        public String rule() {
          return "Every 90 days.";
        }

        @Override
        public Optional<String> note(String row, boolean acted, String by, String remark) {
          noted.add(row + "|" + acted + "|" + by + "|" + remark);
          return row.equals("door open") ? Optional.empty() : Optional.of("There is no such row.");
        }

        @Override
        public Optional<String> simulate(String row, String by) {
          noted.add("simulated " + row + "|" + by);
          return Optional.empty();
        }
      };

  @BeforeEach
  void start() {
    bench = new FakeBench(Scene.RUNNING);
    bench.proofs = tests;
    service = WebService.start(bench, "127.0.0.1", 0);
    client = new Client(service.port());
  }

  @AfterEach
  void stop() {
    service.close();
  }

  @Test
  void everyRowIsListedWithItsInstruction() {
    JsonNode answer = Client.json(client.get("/api/prooftests"));
    assertEquals("Every 90 days.", answer.get("rule").textValue());
    assertEquals("Open the door.", answer.get("lines").get(0).get("instruction").textValue());
  }

  @Test
  void aServiceThatKeepsNoneListsNone() {
    bench.proofs = null;
    assertEquals(0, Client.json(client.get("/api/prooftests")).get("lines").size());
    String body = "{\"row\":\"door open\",\"acted\":1,\"by\":\"Ann\"}";
    assertEquals(404, client.post("/api/prooftests", body).statusCode());
  }

  @Test
  void aResultIsNotedWithItsPersonAndARemark() {
    String body = "{\"row\":\"door open\",\"acted\":1,\"by\":\"Ann\",\"remark\":\"by hand\"}";
    assertEquals(200, client.post("/api/prooftests", body).statusCode());
    client.post("/api/prooftests", "{\"row\":\"door open\",\"acted\":0,\"by\":\"Bo\"}");
    assertEquals(List.of("door open|true|Ann|by hand", "door open|false|Bo|"), noted);
  }

  @Test
  void aRowThatIsNotThereIsRefusedWithTheReason() {
    HttpResponse<String> answer =
        client.post("/api/prooftests", "{\"row\":\"x\",\"acted\":1,\"by\":\"Ann\"}");
    assertEquals(409, answer.statusCode());
    assertTrue(answer.body().contains("no such row"));
  }

  @Test
  void whatIsMalformedChangesNothing() {
    for (String body :
        List.of(
            "{}",
            "{\"row\":\"door open\",\"acted\":2,\"by\":\"Ann\"}",
            "{\"row\":\"door open\",\"acted\":1,\"by\":\"\"}",
            "{\"row\":\"door open\",\"acted\":1,\"by\":\"Ann\",\"more\":1}")) {
      assertEquals(400, client.post("/api/prooftests", body).statusCode(), body);
    }
    String body = "{\"row\":\"door open\",\"acted\":1,\"by\":\"Ann\"}";
    assertEquals(403, client.send(client.write("/api/prooftests", body)).statusCode());
    assertEquals(List.of(), noted);
  }

  @Test
  void theSimulatorIsAskedForOneRow() {
    String body = "{\"row\":\"door open\",\"by\":\"Ann\"}";
    assertEquals(200, client.post("/api/prooftests/simulated", body).statusCode());
    assertEquals(List.of("simulated door open|Ann"), noted);
  }
}
