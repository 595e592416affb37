package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.service.Browser;

class DemoInTheBrowserIT {
  @TempDir private Path data;

  private static double celsius(Browser browser) {
    String value = browser.attribute("#sample-temperature", "data-celsius");
    return value == null || value.isEmpty() ? Double.NaN : Double.parseDouble(value);
  }

  private static double soakSeconds(Browser browser) {
    String value = browser.attribute("#soak-clock", "data-seconds");
    return value == null || value.isEmpty() ? Double.NaN : Double.parseDouble(value);
  }

  @Test
  void aPersonPausesResumesAnswersAndSeesTheBatchComplete() throws Exception {
    try (ServedProcess demo =
            ServedProcess.start(
                "demo",
                "--no-browser",
                "--port",
                "0",
                "--speed",
                "1500",
                "--data",
                data.toString());
        Browser browser = new Browser(1280, 1400)) {
      browser.open(demo.address());
      browser.type("#person", "tester");

      browser.waitUntil("the sample is warm", page -> celsius(page) > 60);
      browser.waitUntil("a soak is under way", page -> soakSeconds(page) > 60);

      browser.click("#pause");
      browser.waitForState("paused");
      double pausedCelsius = celsius(browser);
      double earned = soakSeconds(browser);
      browser.waitUntil("it cools", page -> celsius(page) < pausedCelsius - 20);
      assertEquals(earned, soakSeconds(browser), "the soak clock must stand still");
      browser.picture("demo-paused");

      browser.click("#resume");
      browser.waitForState("running");
      browser.waitUntil("the soak goes on", page -> soakSeconds(page) != earned);

      answer(browser, demo, "1");
      answer(browser, demo, "2");
      browser.picture("demo-second-half");
      answer(browser, demo, "3");
      browser.waitForState("complete");
      browser.waitForText("#sentence", "Complete");
      browser.picture("demo-complete");
      assertEquals(List.of(), browser.complaints(demo.address()));
      assertTrue(demo.status().get("oxygen").get("conversionFraction").asDouble() > 0.95);
    }
  }

  /** Waits for a question by its number, types the mass that the balance shows and sends. */
  private static void answer(Browser browser, ServedProcess demo, String number) throws Exception {
    JsonNode status = demo.waitFor("question " + number, next -> asks(next, number));
    browser.waitUntil(
        "the page asks " + number, page -> number.equals(page.attribute("#ask", "data-question")));
    BenchKeeper.shownGrams(status.path("ask").path("prompt").asText())
        .ifPresent(grams -> browser.type("#ask-field-0", grams));
    browser.click("#ask-send");
    demo.waitFor("the answer is taken", next -> !asks(next, number));
  }

  private static boolean asks(JsonNode status, String number) {
    return status.path("ask").path("number").asText().equals(number);
  }
}
