package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
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

  private static double shown(String edge) {
    return Double.parseDouble(browser.attribute("#trend .plot", "data-" + edge));
  }

  private void openTrend() {
    openPage(Scene.RUNNING);
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    browser.waitUntil("marks are told", b -> b.isShown("#trend .marks"));
  }

  @Test
  void keysAndButtonsMoveAlongATrendAndLookCloser() {
    openTrend();
    browser.click("#trend .spans button:nth-child(7)");
    browser.waitUntil("the whole batch is shown", b -> shown("from") == 0);
    double whole = shown("to");
    browser.press("#trend .plot", Keys.HOME);
    browser.find("#trend .plot").sendKeys("+");
    browser.waitUntil("half is shown", b -> shown("to") - shown("from") < 0.51 * whole);
    assertEquals(0, shown("from"), 1);
    browser.find("#trend .plot").sendKeys(Keys.chord(Keys.SHIFT, Keys.ARROW_RIGHT));
    browser.waitUntil("later is shown", b -> shown("from") > 0.1 * whole);
    browser.click("#trend .earlier");
    browser.waitUntil("earlier is shown", b -> shown("from") == 0);
    double width = shown("to") - shown("from");
    browser.click("#trend .farther");
    browser.waitUntil("more is shown", b -> shown("to") - shown("from") > 1.9 * width);
    browser.click("#trend .spans button");
    browser.waitUntil("a minute is shown", b -> Math.abs(shown("to") - shown("from") - 60) < 1);
    browser.find("#trend .plot").sendKeys("0");
    browser.waitUntil("all is shown again", b -> shown("from") == 0 && shown("to") >= whole);
  }

  @Test
  void wheelAndFingersMoveAlongATrend() {
    openTrend();
    double width = shown("to") - shown("from");
    browser.run(
        "document.querySelector('#trend .u-over').dispatchEvent(new WheelEvent('wheel',"
            + " {deltaY: -100, ctrlKey: true, bubbles: true, cancelable: true, clientX: 400}))");
    browser.waitUntil("the wheel looks closer", b -> shown("to") - shown("from") < 0.9 * width);
    double from = shown("from");
    browser.run(
        """
        const over = document.querySelector('#trend .u-over');
        const touch = (kind, x) => over.dispatchEvent(new PointerEvent(kind,
          { pointerType: 'touch', pointerId: 5, clientX: x, bubbles: true }));
        touch('pointerdown', 300); touch('pointermove', 500); touch('pointerup', 500);
        """);
    browser.waitUntil("a finger moves it", b -> shown("from") < from - 60);
  }

  @Test
  void marksAreListedForWhoCannotSeeThem() {
    openTrend();
    browser.click("#trend .spans button:nth-child(7)");
    browser.waitForText("#trend .marks summary", "6 oxygen doses");
    browser.click("#trend .marks summary");
    for (String words :
        List.of("P paused", "T held after a trip", "O vessel open", "W weighed", "! alarm")) {
      browser.waitForText("#trend .marks tbody", words);
    }
    browser.picture("marks-wide");
  }

  @Test
  void thePageAnswersItsFourQuestionsInTheirOrder() {
    openPage(Scene.TRIPPED);
    browser.waitForText("#needs", "Acknowledge oven-too-hot");
    assertEquals(
        List.of(
            "Is it safe?",
            "What is it doing?",
            "What does it need from you?",
            "How far along is it?"),
        browser.all("#now h2").stream().map(each -> each.getText()).toList());
    browser.waitForText("#permits", "by: oven too hot");
    browser.waitForText("#nav", "Alarms");
    bench.show(Scene.RUNNING);
    browser.waitForText("#needs", "about 22:10");
    browser.waitForText("#soak-count", "1 done, 1 going, 1 to come");
    browser.waitForText("#soaks", "until about 17:53");
    browser.waitUntil("alarms are gone from the ways", b -> !b.text("#nav").contains("Alarms"));
  }

  /** On a wall-sized screen letters grow, and the page still fills it. */
  @Test
  void aVeryLargeScreenIsFilledWithLargeLetters() {
    openPage(Scene.TRIPPED);
    browser.size(3840, 2160);
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    Number letters =
        (Number)
            browser.run(
                "return parseFloat(getComputedStyle(document.querySelector('#safe')).fontSize)");
    assertTrue(letters.doubleValue() >= 32, letters + " px");
    Number width = (Number) browser.run("return document.querySelector('main').offsetWidth");
    assertTrue(width.intValue() > 3400, width + " px");
    assertFitsSideways();
    browser.picture("tripped-4k");
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
    for (Scene scene : Scene.values()) {
      openPage(scene);
      browser.waitForText("#batches", "first try");
      inEitherScheme(audit, scene.toString());
    }
    service.close();
    browser.waitForText("#lost", "lost");
    inEitherScheme(audit, "lost");
  }

  private static void inEitherScheme(String audit, String what) {
    for (Browser.Scheme scheme : Browser.Scheme.values()) {
      browser.prefer(scheme);
      assertEquals(List.of(), browser.run(audit), what + " " + scheme);
    }
  }

  @AfterEach
  void preferLight() {
    browser.prefer(Browser.Scheme.LIGHT);
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
    browser.prefer(Browser.Scheme.DARK);
    openPage(Scene.TRIPPED);
    browser.waitUntil("the curves are there", b -> b.all("#trend canvas").size() == 2);
    assertEquals(
        "rgb(23, 25, 27)", browser.run("return getComputedStyle(document.body).backgroundColor"));
    browser.picture("tripped-dark");
  }
}
