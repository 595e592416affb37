package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class KilledServiceIT {
  @TempDir private Path data;

  private ServedProcess serve() throws Exception {
    return ServedProcess.start(
        "serve",
        "--rig",
        Demo.RIG.toString(),
        "--data",
        data.toString(),
        "--port",
        "0",
        "--speed",
        "600");
  }

  private static final String CHECK_IN = "{\"type\":\"checkIn\",\"by\":\"tester\",\"hours\":8}";

  private static double inBandS(JsonNode status) {
    double sum = 0;
    for (JsonNode soak : status.get("soaks")) {
      sum += soak.get("inBandS").asDouble();
    }
    return sum;
  }

  private static JsonNode output(JsonNode status, String name) {
    for (JsonNode output : status.get("outputs")) {
      if (output.get("name").asText().equals(name)) {
        return output;
      }
    }
    throw new AssertionError("no output " + name);
  }

  @Test
  void aKilledServiceComesBackHeldWithWhatWasEarnedAndAPersonGoesOn() throws Exception {
    double earnedS;
    try (ServedProcess service = serve()) {
      String recipe = Demo.copperUnrehearsed();
      assertEquals(202, service.begin(recipe));
      service.waitForState("running");
      service.post("api/requests", CHECK_IN);
      JsonNode soaking = service.waitFor("half an hour of soak", status -> inBandS(status) > 1800);
      earnedS = inBandS(soaking);
      service.kill();
    }

    try (ServedProcess service = serve()) {
      JsonNode held = service.waitForState("held");
      assertFalse(output(held, "heater").get("on").asBoolean());
      assertFalse(output(held, "oxygen valve").get("on").asBoolean());
      double keptS = inBandS(held);
      assertTrue(keptS >= earnedS - 1, "earned " + earnedS + " s, kept " + keptS + " s");
      assertEquals("power returned", held.get("alarms").get(0).get("id").asText());

      // Nothing goes on by itself, nor by a restart before the trip is reset.
      service.post("api/requests", "{\"type\":\"restart\",\"by\":\"tester\"}");
      long millis = held.get("batchMillis").asLong();
      JsonNode later =
          service.waitFor("a minute more", s -> s.get("batchMillis").asLong() > millis + 60_000);
      assertEquals("held", later.get("state").asText());
      assertEquals(keptS, inBandS(later));

      service.post("api/requests", CHECK_IN);
      service.post(
          "api/requests",
          "{\"type\":\"reset\",\"by\":\"tester\",\"alarm\":\"power returned\","
              + "\"reason\":\"looked at the bench\"}");
      service.waitFor("reset", s -> s.get("mayAsk").toString().contains("restart"));
      service.post("api/requests", "{\"type\":\"restart\",\"by\":\"tester\"}");
      service.waitForState("running");
      service.waitFor("more soak", status -> inBandS(status) > keptS + 600);
      service.post("api/abort", "");
      JsonNode aborted = service.waitForState("aborted");
      assertFalse(output(aborted, "heater").get("on").asBoolean());
    }

    StringWriter out = new StringWriter();
    StringWriter errors = new StringWriter();
    int replayed =
        Main.run(
            new PrintWriter(out),
            new PrintWriter(errors),
            "replay",
            "1",
            "--data",
            data.toString());
    assertEquals(0, replayed, errors::toString);
  }
}
