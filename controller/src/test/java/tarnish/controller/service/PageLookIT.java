package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** How the page looks, reads and draws, in a real browser. */
class PageLookIT extends PageFixture {
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
