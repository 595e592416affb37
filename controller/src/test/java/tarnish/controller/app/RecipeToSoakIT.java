package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tarnish.controller.service.Browser;

/** From the recipe's text through the list before the start to a skipped soak, the jar and all. */
class RecipeToSoakIT {
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
        "400");
  }

  @Test
  void aPersonEditsARecipeGoesThroughTheListStartsAndSkipsASoak() throws Exception {
    try (ServedProcess service = serve();
        Browser browser = new Browser(1280, 900)) {
      browser.open(service.address() + "recipes.html");
      browser.type("#person", "tester");
      browser.waitUntil("recipes are there", b -> b.all("#recipe option").size() >= 3);
      browser.run(
          "const r = document.getElementById('recipe'); r.value = 'copper-oxide';"
              + " r.dispatchEvent(new Event('change'))");
      browser.waitForText("#verdict", "can be run");
      edit(browser, "for: 1 h, band: 3 K", "for: 1 hour, band: 3 K");
      browser.waitForText("#verdict", "fault");
      browser.waitForText("#faults", "Line 27, column");
      browser.picture("real-recipe-fault");
      edit(browser, "for: 1 hour, band: 3 K", "for: 90 min, band: 3 K");
      browser.waitForText("#verdict", "can be run");
      browser.waitForText("#sheet", "mmol");
      browser.type("#keep-remark", "a longer first soak");
      browser.press("#keep-remark", Keys.ENTER);
      browser.waitForText("#command-answer", "Kept as copper-oxide, version 2");
      browser.press("#rehearse", Keys.ENTER);
      browser.waitForText("#rehearsal-sum", "complete after");
      goThroughTheList(browser);
      browser.picture("real-recipe-ready");
      browser.press("#start-batch", Keys.ENTER);
      browser.waitForState("running");

      browser.click("#check-in");
      browser.waitForText("#presence-who", "checked in");
      service.waitFor("the first soak", RecipeToSoakIT::soaks);
      browser.click("#changes-open summary");
      browser.waitForText("#changes-step", "Soak at 100 °C");
      browser.type("#changes-reason", "only for the trial");
      browser.waitUntil("the soak is offered", b -> b.isShown("#changes-skip"));
      browser.press("#changes-skip", Keys.ENTER);
      browser.waitForText("#changes-differences", "skipped after");
      browser.waitForText("#changes-rehearsal", "Rehearsed: complete after");
      browser.picture("real-change");
      browser.press("#changes-yes", Keys.ENTER);
      browser.waitForText("#events", "skipped after");
      service.post("api/abort", "");
      service.waitForState("aborted");
      record(service);
    }
    StringWriter errors = new StringWriter();
    assertEquals(
        0,
        Main.run(
            new PrintWriter(new StringWriter()),
            new PrintWriter(errors),
            "replay",
            "1",
            "--data",
            data.toString()),
        errors::toString);
  }

  private static void edit(Browser browser, String was, String becomes) {
    browser.run(
        "const t = document.getElementById('text');"
            + " if (!t.value.includes(arguments[0])) throw new Error('not there');"
            + " t.value = t.value.replace(arguments[0], arguments[1]);"
            + " t.dispatchEvent(new Event('input'))",
        was,
        becomes);
  }

  private static void goThroughTheList(Browser browser) {
    browser.waitForText("#preflight-what", "copper-oxide, version 2");
    browser.type("#preflight-charge", "4.0004");
    for (String point : List.of("vessel", "source", "leak-test", "proof-tests", "presence")) {
      browser.press("#preflight-" + point, Keys.SPACE);
    }
    browser.waitUntil("all is answered", b -> b.isEnabled("#start-batch"));
  }

  private static boolean soaks(JsonNode status) {
    for (JsonNode soak : status.get("soaks")) {
      if (soak.get("state").asText().equals("now") && soak.get("inBandS").asDouble() > 10) {
        return true;
      }
    }
    return false;
  }

  /** The events tell the list and the change, the acts who and from where. */
  private void record(ServedProcess service) throws Exception {
    List<String> told = new ArrayList<>();
    service
        .get("api/batches/1/events?from=0")
        .get("events")
        .forEach(event -> told.add(event.get("sentence").asText()));
    String all = String.join("\n", told);
    assertTrue(all.contains("Before the start, charge: weighed (4.0004 ± 0.0010) g"), all);
    assertTrue(all.contains("Before the start, library: copper-oxide, version 2"), all);
    assertTrue(all.contains("Reason: only for the trial. Rehearsed: complete after"), all);
    String acts = service.get("api/acts").toString();
    assertTrue(acts.contains("skip the soak of step 6: only for the trial"), acts);
    assertTrue(acts.contains("127.0.0.1"), acts);
    String ran = service.get("api/batches/1").get("head").get("recipeText").asText();
    assertTrue(ran.contains("for: 90 min"), ran);
    assertEquals(
        3,
        Files.readAllLines(data.resolve("recipes/versions.jsonl")).stream()
            .filter(line -> line.contains("copper-oxide\"") || line.contains("two-weeks"))
            .count());
  }
}
