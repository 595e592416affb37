package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.http.HttpResponse;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.controller.service.OpenMetricsReader.Family;
import tarnish.controller.service.OpenMetricsReader.Sample;
import tarnish.controller.service.OpenMetricsText.Type;

class MetricsTest {
  private static Sample labelled(Family family, String label, String value) {
    return family.samples().stream()
        .filter(sample -> value.equals(sample.labels().get(label)))
        .findFirst()
        .orElseThrow(() -> new AssertionError(value + " is missing in " + family));
  }

  @ParameterizedTest
  @EnumSource(Scene.class)
  void everySceneIsWellFormedAndTellsItsState(Scene scene) {
    Map<String, Family> families = OpenMetricsReader.read(Metrics.of(new FakeBench(scene)));
    Family states = families.get("tarnish_batch_state");
    assertEquals("stateset", states.type());
    assertEquals(12, states.samples().size());
    assertEquals(1, states.samples().stream().filter(each -> each.value() == 1).count());
    assertEquals(1, labelled(states, "tarnish_batch_state", scene.state.words()).value());
    assertTrue(families.get("tarnish_loop_ticks").samples().get(0).value() >= 100);
  }

  @Test
  void valuesAreThoseOfTheStatusAndAReadingThatIsNotGoodHasNone() {
    FakeBench bench = new FakeBench(Scene.RUNNING);
    Map<String, Family> families = OpenMetricsReader.read(Metrics.of(bench));
    Family temperature = families.get("tarnish_temperature_celsius");
    assertEquals("celsius", temperature.unit());
    for (Status.ReadingLine line : bench.status().readings()) {
      boolean isGood = line.value() != null;
      Family good = families.get("tarnish_reading_good");
      assertEquals(isGood ? 1 : 0, labelled(good, "sensor", line.channel()).value());
      if (!isGood) {
        assertFalse(
            families.values().stream()
                .filter(family -> family != good)
                .flatMap(family -> family.samples().stream())
                .anyMatch(sample -> line.channel().equals(sample.labels().get("sensor"))));
      }
    }
    assertEquals(
        523.55 - 273.15,
        labelled(temperature, "sensor", bench.status().readings().get(0).channel()).value(),
        1e-9);
    assertEquals(
        bench.status().oxygen().conversionFraction(),
        families.get("tarnish_conversion_ratio").samples().get(0).value());
    assertEquals(
        bench.status().oxygen().takenMol(),
        families.get("tarnish_uptake_moles").samples().get(0).value());
  }

  @Test
  void theServiceGivesThemUnderTheirContentTypeToThisMachineOnly() {
    FakeBench bench = new FakeBench(Scene.RUNNING);
    try (WebService service = WebService.start(bench, "127.0.0.1", 0)) {
      HttpResponse<String> answer = new Client(service.port()).get("/metrics");
      assertEquals(200, answer.statusCode());
      String type = answer.headers().firstValue("Content-Type").orElse("").replace(" ", "");
      assertEquals("application/openmetrics-text;version=1.0.0;charset=utf-8", type);
      OpenMetricsReader.read(answer.body());
      assertEquals(405, new Client(service.port()).post("/metrics", "{}").statusCode());
    }
  }

  @Test
  void whateverStandsInALabelComesOutAgain() {
    String odd = "a \"quoted\" back\\slash, brace } and\nline é";
    OpenMetricsText text = new OpenMetricsText();
    text.family("odd", Type.GAUGE, "", odd)
        .value("name", odd, 1.5e-7)
        .value("name", "b", Double.NEGATIVE_INFINITY);
    Family family = OpenMetricsReader.read(text.end()).get("odd");
    assertEquals(odd, family.samples().get(0).labels().get("name"));
    assertEquals(1.5e-7, family.samples().get(0).value());
    assertEquals(Double.NEGATIVE_INFINITY, family.samples().get(1).value());
  }

  @Test
  void aUnitThatTheNameDoesNotEndWithIsADefect() {
    OpenMetricsText text = new OpenMetricsText();
    assertThrows(
        IllegalArgumentException.class, () -> text.family("a_b", Type.GAUGE, "seconds", ""));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "# TYPE a gauge\na 1\n",
        "# TYPE a counter\na 1\n# EOF\n",
        "# TYPE a gauge\na 1\n# TYPE b gauge\nb 1\n# TYPE a gauge\n# EOF\n",
        "# TYPE a gauge\na 1\na 1\n# EOF\n",
        "# TYPE a gauge\n# UNIT a seconds\na 1\n# EOF\n",
        "# TYPE a gauge\na{b=\"\n\"} 1\n# EOF\n",
        "# TYPE a stateset\na{b=\"c\"} 1\n# EOF\n",
        "# TYPE a gauge\na  1\n# EOF\n",
        "# TYPE 1a gauge\n1a 1\n# EOF\n"
      })
  void theReaderRefusesWhatTheFormatForbids(String text) {
    assertThrows(AssertionError.class, () -> OpenMetricsReader.read(text));
  }
}
