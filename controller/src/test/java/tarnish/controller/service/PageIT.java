package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import tarnish.controller.control.Request;

/** What the page says and what its buttons ask for, in a real browser. */
class PageIT extends PageFixture {
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
    assertEquals(List.of(), browser.complaints(address()));
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
  void anIdleBenchLeadsToItsRecipes() {
    openPage(Scene.IDLE);
    browser.waitForText("#start", "Choose a recipe");
    browser.picture("idle-wide");
    browser.press("#to-recipes", Keys.ENTER);
    browser.waitForText("#editor-title", "Text");
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
    service = FakeWorkshop.serve(bench, port);
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
}
