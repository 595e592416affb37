package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** The recipe page in a real browser, by keyboard where it can be. */
class RecipesIT extends PageFixture {
  private void openRecipes() {
    bench.show(Scene.IDLE);
    browser.size(1280, 900);
    browser.open(address() + "recipes.html");
    browser.waitUntil(
        "the first recipe is open",
        b -> b.run("return document.getElementById('text').value").toString().contains("Barium"));
    browser.type("#person", "Ada");
  }

  private void write(String text) {
    browser.find("#text").sendKeys(Keys.chord(Keys.CONTROL, "a"), Keys.DELETE);
    browser.find("#text").sendKeys(text);
  }

  @Test
  void aFaultIsToldAsOneTypesAndLeadsToItsPlace() {
    openRecipes();
    browser.waitForText("#verdict", "1 fault");
    browser.waitForText("#faults", "Line 1, column 8");
    browser.press("#faults button", Keys.ENTER);
    assertEquals(7L, browser.run("return document.getElementById('text').selectionStart"));
    assertEquals("text", browser.run("return document.activeElement.id"));
    browser.waitForText("#text-place", "Line 1, column 8");
    assertFalse(browser.isEnabled("#rehearse"));
    assertFalse(browser.isEnabled("#start-batch"));
    browser.picture("recipe-faulty-wide");
    assertEquals(List.of(), Axe.violations(browser), "recipe-faulty-wide");
    write("title: Copper, slower\n");
    browser.waitForText("#verdict", "can be run");
    browser.waitForText("#sheet", "15.7 mmol");
    browser.waitForText("#sheet", "warning");
    assertEquals(List.of(), browser.complaints(address()));
  }

  @Test
  void aVersionIsKeptComparedRehearsedAndStartedThroughTheList() {
    openRecipes();
    browser.press("#recipe", Keys.ARROW_DOWN);
    browser.waitForText("#verdict", "can be run");
    write("title: Copper to copper(II) oxide\nsoak: longer\n");
    browser.waitForText("#preflight-what", "only a kept version is started");
    browser.type("#keep-remark", "a longer soak");
    browser.press("#keep-remark", Keys.ENTER);
    browser.waitForText("#command-answer", "Kept as copper, version 2");
    browser.waitForText("#versions", "a longer soak");
    browser.press("#versions tr:nth-child(2) .compare", Keys.ENTER);
    browser.waitForText("#differences-text", "+ soak: longer");
    browser.click("#rehearse");
    browser.waitForText("#rehearsal-sum", "complete after 21 h");
    browser.waitForText("#preflight-what", "copper, version 2");
    assertFalse(browser.isEnabled("#start-batch"), "before the list is gone through");
    browser.type("#preflight-charge", "2,000");
    browser.press("#preflight-vessel", Keys.SPACE);
    assertFalse(browser.isEnabled("#start-batch"), "with one point open");
    browser.type("#preflight-leak-test", "yesterday, by rise of pressure");
    browser.waitUntil("all is answered", b -> b.isEnabled("#start-batch"));
    browser.picture("recipe-ready-wide");
    browser.size(360, 740);
    assertEquals(
        browser.run("return document.documentElement.clientWidth"),
        browser.run("return document.documentElement.scrollWidth"));
    browser.picture("recipe-ready-narrow");
    browser.size(1280, 900);
    browser.press("#start-batch", Keys.ENTER);
    browser.waitForState("running");
    assertEquals(List.of("Ada"), bench.started);
  }

  @Test
  void whoKeepsAVersionWhileAnotherDoesIsTold() throws Exception {
    openRecipes();
    browser.press("#recipe", Keys.ARROW_DOWN);
    browser.waitForText("#verdict", "can be run");
    write("title: Copper, mine\n");
    Client other = new Client(service.port());
    assertEquals(
        201,
        other
            .post(
                "/api/recipes",
                "{\"name\":\"copper\",\"recipe\":\"title: copper, theirs\",\"basedOn\":1,"
                    + "\"by\":\"Ben\",\"remark\":\"\"}")
            .statusCode());
    browser.click("#keep-send");
    browser.waitForText("#command-answer", "kept by Ben meanwhile");
    assertTrue(
        browser.run("return document.getElementById('text').value").toString().contains("mine"),
        "what was typed is still there");
  }

  @Test
  void aSoakUnderWayIsSkippedOnlyAfterItsDifferenceAndRehearsalAreShown() {
    openPage(Scene.RUNNING);
    giveName();
    browser.click("#changes-open summary");
    browser.waitForText("#changes-step", "Soak at 250 °C (now)");
    browser.click("#changes-skip");
    browser.waitForText("#changes-problem", "reason");
    browser.type("#changes-reason", "grey all through");
    browser.click("#changes-skip");
    browser.waitForText("#changes-differences", "8 h");
    browser.waitForText("#changes-rehearsal", "complete after 21 h");
    browser.picture("change-shown-wide");
    assertEquals(List.of(), Axe.violations(browser), "change-shown-wide");
    browser.size(360, 740);
    browser.picture("change-shown-narrow");
    browser.size(1280, 900);
    assertEquals(List.of(), bench.submitted);
    browser.press("#changes-yes", Keys.ENTER);
    browser.waitUntil("it is taken", b -> bench.submitted.size() == 1);
    assertEquals(
        new tarnish.controller.control.Request.SkipSoak(
            "Ada", 5, "grey all through", "complete after 21 h"),
        bench.submitted.get(0));
    browser.waitUntil("the difference is gone", b -> !b.isShown("#changes-outcome"));
  }

  @Test
  void aPhotoAndACorrectionGoIntoTheLedger() throws Exception {
    openPage(Scene.RUNNING);
    giveName();
    bench.journal.add(
        FakeJournal.NOW_MILLIS, "LedgerEntered", "Ledger, Ada: solid lost, 0.5 g left.");
    browser.waitForText("#ledger-entries", "solid lost, 0.5 g left");
    browser.click("#ledger-entries li:last-child button");
    browser.waitForText("#confirm-text", "stays as it is");
    browser.type("#confirm-reason", "0.05 g were lost");
    browser.click("#confirm-yes");
    browser.waitUntil("it is taken", b -> bench.submitted.size() == 1);
    assertTrue(
        bench.submitted.get(0) instanceof tarnish.controller.control.Request.Correction c
            && c.former().contains("0.5 g left")
            && c.remark().equals("0.05 g were lost"),
        bench.submitted.toString());
    java.nio.file.Path file = java.nio.file.Files.createTempFile("tarnish", ".png");
    javax.imageio.ImageIO.write(
        new java.awt.image.BufferedImage(40, 30, java.awt.image.BufferedImage.TYPE_INT_RGB),
        "png",
        file.toFile());
    browser.click("#ledger details:nth-of-type(2) summary");
    browser.find("#photo-file").sendKeys(file.toString());
    browser.type("#photo-remark", "after grinding");
    browser.click("#photo-send");
    browser.waitUntil("it is taken", b -> bench.submitted.size() == 2);
    tarnish.controller.control.Request.Photo photo =
        (tarnish.controller.control.Request.Photo) bench.submitted.get(1);
    assertEquals("after grinding", photo.remark());
    bench.journal.add(
        FakeJournal.NOW_MILLIS,
        "LedgerEntered",
        "Ledger, Ada: photo of 1 KiB, SHA-256 " + photo.sha256() + ". after grinding");
    browser.waitUntil(
        "its picture is shown",
        b ->
            Boolean.TRUE.equals(
                b.run(
                    "const i = document.querySelector('#ledger-entries img');"
                        + " i && i.scrollIntoView(); return Boolean(i) && i.naturalWidth === 40")));
    browser.picture("ledger-wide");
    java.nio.file.Files.delete(file);
  }
}
