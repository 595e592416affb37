package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import tarnish.controller.control.Request;

/** The page in a real browser against a bench that follows a script. */
class PageIT {
  private static Browser browser;

  private FakeBench bench;
  private WebService service;

  @BeforeAll
  static void openBrowser() {
    browser = new Browser(1280, 900);
  }

  @AfterAll
  static void closeBrowser() {
    browser.close();
  }

  @BeforeEach
  void startService() {
    bench = new FakeBench(Scene.RUNNING);
    service = WebService.start(bench, "127.0.0.1", 0);
  }

  @AfterEach
  void stopService() {
    service.close();
  }

  private void openPage(Scene scene) {
    bench.show(scene);
    browser.size(1280, 900);
    browser.open("about:blank");
    browser.complaints();
    browser.open("http://127.0.0.1:" + service.port() + "/");
    browser.waitForState(scene.state.words());
  }

  private void giveName() {
    browser.type("#person", "Ada");
  }

  @Test
  void aRunningBatchIsToldInWordsAndNothingIsBlocked() {
    openPage(Scene.RUNNING);
    browser.waitForText("#sentence", "Soak at 250 °C");
    browser.waitForText("#why", "within 3 K");
    browser.waitForText("#notice", "Simulated bench");
    browser.waitForText("#notice", "Invented");
    browser.waitForText("#notice", "60 times");
    browser.waitForText("#sample-temperature", "250.4 °C");
    assertEquals("6000", browser.attribute("#soak-clock", "data-seconds"));
    browser.waitForText("#events", "Oxygen pulse 6");
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    browser.waitUntil(
        "the curves show ink",
        b -> (Boolean) b.run("return document.querySelector('#trend canvas').width > 300"));
    browser.picture("running-wide");
    assertEquals(List.of(), browser.complaints());
  }

  @Test
  void onlyWhatMayBeAskedCanBePressed() {
    openPage(Scene.PAUSED);
    browser.waitUntil("resume is on", b -> b.isEnabled("#resume"));
    assertFalse(browser.isEnabled("#pause"));
    assertFalse(browser.isEnabled("#restart"));
    assertTrue(browser.isEnabled("#stop"));
    assertTrue(browser.isEnabled("#abort"));
  }

  @Test
  void pauseAndResumeCarryTheName() {
    openPage(Scene.RUNNING);
    giveName();
    browser.click("#pause");
    browser.waitForState("paused");
    browser.click("#resume");
    browser.waitForState("running");
    assertEquals(List.of(new Request.Pause("Ada"), new Request.Resume("Ada")), bench.submitted);
    browser.reload();
    browser.waitUntil(
        "the name is remembered",
        b -> "Ada".equals(b.run("return document.getElementById('person').value")));
  }

  @Test
  void withoutANameNothingIsSentButTheEmergency() {
    openPage(Scene.RUNNING);
    browser.run("localStorage.clear()");
    browser.reload();
    browser.waitForState("running");
    browser.click("#pause");
    browser.waitForText("#command-answer", "your name first");
    assertEquals(List.of(), bench.submitted);
    browser.click("#abort");
    browser.waitForText("#abort", "Press again");
    assertEquals(List.of(), bench.submitted);
    browser.click("#abort");
    browser.waitForState("aborted");
    assertTrue(bench.submitted.get(0) instanceof Request.Abort);
    browser.picture("aborted-wide");
  }

  @Test
  void stopAsksOnceMoreAndCanBeLeft() {
    openPage(Scene.RUNNING);
    giveName();
    browser.click("#stop");
    browser.waitForText("#confirm-title", "Stop the batch?");
    browser.press("#confirm-no", Keys.ESCAPE);
    browser.waitUntil("the question is gone", b -> !b.isShown("#confirm"));
    assertEquals(List.of(), bench.submitted);
    browser.click("#stop");
    browser.click("#confirm-yes");
    browser.waitForState("idle");
    assertEquals(List.of(new Request.Stop("Ada")), bench.submitted);
  }

  @Test
  void aMassIsTypedInGramsAndSentInKilograms() {
    openPage(Scene.ASKING);
    giveName();
    browser.waitForText("#ask-prompt", "weigh the whole solid");
    browser.picture("asking-wide");
    browser.type("#ask-field-0", "two");
    browser.type("#ask-field-1", "dark grey");
    browser.click("#ask-send");
    browser.waitForText("#ask-problem", "mass in g");
    assertEquals(List.of(), bench.submitted);
    browser.type("#ask-field-0", "2,125");
    browser.click("#ask-send");
    browser.waitUntil("the question is gone", b -> !b.isShown("#ask"));
    assertEquals(
        List.of(
            new Request.Answer("Ada", 4, Map.of("mass of the solid", 2.125 / 1000), "dark grey")),
        bench.submitted);
  }

  @Test
  void aTripIsToldAndItsResetNeedsAReason() {
    openPage(Scene.TRIPPED);
    giveName();
    browser.waitForText("#safe", "2 alarms");
    browser.waitForText("[data-alarm=oven-too-hot]", "first out");
    browser.picture("tripped-wide");
    browser.click("[data-alarm=oven-too-hot] .acknowledge");
    browser.waitUntil("it is taken", b -> bench.submitted.size() == 1);
    browser.click("[data-alarm=oven-too-hot] .reset");
    browser.click("#confirm-yes");
    browser.waitForText("#confirm-problem", "reason");
    browser.type("#confirm-reason", "relay replaced");
    browser.click("#confirm-yes");
    browser.waitForState("running");
    assertEquals(
        List.of(
            new Request.Acknowledge("Ada", "oven-too-hot"),
            new Request.Reset("Ada", "oven-too-hot", "relay replaced")),
        bench.submitted);
  }

  @Test
  void anIdleBenchOffersItsRecipesWithTheirCheck() {
    openPage(Scene.IDLE);
    giveName();
    browser.waitForText("#recipe-check", "found '20'");
    browser.press("#recipe", Keys.ARROW_DOWN);
    browser.waitForText("#recipe-check", "can be run");
    browser.picture("idle-wide");
    browser.click("#start-batch");
    browser.click("#confirm-yes");
    browser.waitForState("running");
    assertEquals(List.of("Ada"), bench.started);
  }

  @Test
  void aLostServiceIsSaidAndFoundAgain() {
    openPage(Scene.RUNNING);
    int port = service.port();
    service.close();
    browser.waitForText("#lost", "lost since");
    browser.waitForText("#safe", "Not known");
    assertFalse(browser.isEnabled("#pause"));
    assertTrue(browser.isEnabled("#abort"));
    browser.picture("lost-wide");
    service = WebService.start(bench, "127.0.0.1", port);
    browser.waitUntil("it is found again", b -> !b.isShown("#lost"));
    giveName();
    browser.click("#pause");
    browser.waitForState("paused");
    assertEquals(List.of(new Request.Pause("Ada")), bench.submitted);
  }

  @Test
  void aControlLoopThatStandsStillIsSaid() {
    openPage(Scene.RUNNING);
    bench.standStill();
    browser.waitForText("#lost", "stands still");
    browser.waitForText("#safe", "Not known");
    assertTrue(browser.isEnabled("#abort"));
  }

  @Test
  void aFailureInsideTheServiceIsSaid() {
    openPage(Scene.RUNNING);
    bench.breakDown();
    browser.waitForText("#lost", "has a problem");
  }

  @Test
  void refusalsOfTheControllerAreTold() {
    openPage(Scene.RUNNING);
    browser.waitForText("#events", "Step 6");
    bench.journal.add(
        FakeJournal.NOW_MILLIS, "RequestRefused", "Refused to Ada: pause. It is paused already.");
    browser.waitForText("#command-answer", "paused already");
    browser.waitForText("#events", "paused already");
  }

  @Test
  void markupInTheRecordIsShownAsText() {
    openPage(Scene.RUNNING);
    String markup = "<img src=x onerror=\"document.title='taken over'\"><b>bold</b>";
    bench.journal.add(FakeJournal.NOW_MILLIS, "Advisory", markup);
    browser.waitForText("#events", markup);
    assertEquals(List.of(), browser.all("#events img, #events b"));
  }

  @Test
  void draggingOverACurveLooksCloser() {
    openPage(Scene.RUNNING);
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    browser.waitUntil("two hours are shown", b -> b.all("[aria-pressed=true]").size() == 1);
    browser.drag("#trend .u-over", 100, 220);
    browser.waitUntil("no whole span is shown", b -> b.all("[aria-pressed=true]").isEmpty());
    browser.click("#trend .spans button");
    browser.waitUntil("15 min are shown", b -> b.all("[aria-pressed=true]").size() == 1);
  }

  @Test
  void everyTextCanBeReadAgainstItsGround() throws IOException {
    String audit = Files.readString(Path.of("src/test/resources/page-audit.js"));
    try (Browser dark = new Browser(1280, 900, true)) {
      for (Browser each : List.of(browser, dark)) {
        for (Scene scene : Scene.values()) {
          bench.show(scene);
          each.size(1280, 900);
          each.open("http://127.0.0.1:" + service.port() + "/");
          each.waitForState(scene.state.words());
          each.waitForText("#batches", "first try");
          assertEquals(List.of(), each.run(audit), scene + (each == dark ? " dark" : " light"));
        }
      }
      service.close();
      browser.waitForText("#lost", "lost");
      assertEquals(List.of(), browser.run(audit), "lost");
      dark.waitForText("#lost", "lost");
      assertEquals(List.of(), dark.run(audit), "lost dark");
    }
  }

  @Test
  void aPastBatchOpensWithItsCurvesAndEvents() {
    openPage(Scene.RUNNING);
    browser.click("[data-batch='1']");
    browser.waitForText("#past-title", "first try");
    browser.waitForText("#past-events", "Leak test passed");
    browser.waitUntil("its curves are there", b -> b.all("#past-trend canvas").size() == 2);
    browser.picture("past-wide");
    browser.click("#past-close");
    browser.waitUntil("it is closed", b -> !b.isShown("#past"));
  }

  @Test
  void arrowKeysReadTheCurves() {
    openPage(Scene.RUNNING);
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    browser.press("#trend .plot", Keys.HOME);
    browser.waitForText("#trend .readout", "sample");
    browser.waitForText("#trend .readout", "mbar");
  }

  @Test
  void aNarrowScreenNeedsNoSidewaysScrolling() {
    openPage(Scene.TRIPPED);
    browser.size(360, 740);
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    assertFitsSideways();
    Number height = (Number) browser.run("return document.querySelector('#abort').offsetHeight");
    assertTrue(height.intValue() >= 44, "the stop is " + height + " px high");
    browser.picture("tripped-narrow");
    bench.show(Scene.ASKING);
    browser.waitUntil("the question is there", b -> b.isShown("#ask"));
    browser.picture("asking-narrow");
    assertFitsSideways();
  }

  private void assertFitsSideways() {
    assertEquals(
        browser.run("return document.documentElement.clientWidth"),
        browser.run("return document.documentElement.scrollWidth"));
  }

  @Test
  void aDarkSchemeIsFollowed() {
    bench.show(Scene.TRIPPED);
    try (Browser dark = new Browser(1280, 900, true)) {
      dark.open("http://127.0.0.1:" + service.port() + "/");
      dark.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
      assertEquals(
          "rgb(23, 25, 27)", dark.run("return getComputedStyle(document.body).backgroundColor"));
      dark.picture("tripped-dark");
    }
  }
}
