package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import tarnish.controller.access.Person;
import tarnish.controller.access.Role;
import tarnish.controller.control.Request;

/** Signing in, looking only, and two operators at once, in a real browser. */
class AccessIT {
  private static final String CY = "Cy Example";

  private static Browser browser;

  private Doors doors;

  @BeforeAll
  static void openBrowser() {
    browser = new Browser(1280, 900);
  }

  @AfterAll
  static void closeBrowser() {
    browser.close();
  }

  @BeforeEach
  void open() {
    doors = new Doors(false, true);
    doors.write(
        new Person(Doors.ADA, Role.OPERATE, Doors.HASH),
        new Person(CY, Role.OPERATE, Doors.HASH),
        new Person(Doors.BEN, Role.LOOK, Doors.HASH));
    doors.pass(3000);
  }

  @AfterEach
  void shut() {
    doors.close();
  }

  private String address() {
    return "http://127.0.0.1:" + doors.service.port() + "/";
  }

  private void signIn(String name, String password) {
    browser.waitUntil("the form is there", b -> !b.all("#login-name").isEmpty());
    browser.type("#login-name", name);
    browser.type("#login-password", password);
    browser.press("#login-password", Keys.ENTER);
  }

  @Test
  void aPersonSignsInActsUnderThatNameAndSignsOut() {
    browser.open(address());
    signIn(Doors.ADA, "not the password");
    browser.waitForText("#login-problem", "Name or password is wrong");
    browser.picture("sign-in-wide");
    assertEquals(List.of(), Axe.violations(browser), "sign-in-wide");
    browser.size(360, 740);
    browser.picture("sign-in-narrow");
    assertEquals(List.of(), Axe.violations(browser), "sign-in-narrow");
    browser.size(1280, 900);
    signIn(Doors.ADA, Doors.PASSWORD);
    browser.waitForState("running");
    browser.waitForText("#who", "Ada Example, may operate");
    assertEquals(Doors.ADA, browser.run("return document.getElementById('person').value"));
    browser.click("#pause");
    browser.waitForState("paused");
    assertEquals(List.of(new Request.Pause(Doors.ADA)), doors.bench.submitted);
    browser.picture("signed-in-wide");
    browser.press("#sign-out", Keys.ENTER);
    browser.waitUntil("signed out", b -> !b.all("#login-form").isEmpty());
    browser.open(address());
    browser.waitUntil("out is out", b -> !b.all("#login-form").isEmpty());
  }

  @Test
  void whoOnlyLooksSeesAllAndCanPressNothing() {
    browser.open(address());
    signIn(Doors.BEN, Doors.PASSWORD);
    browser.waitForState("running");
    browser.waitForText("#who", "may look");
    browser.waitForText("#sentence", "Soak at 250 °C");
    for (String button : List.of("#pause", "#stop", "#check-in")) {
      assertFalse(browser.isEnabled(button), button);
    }
    assertFalse(browser.isShown("#abort"));
    browser.picture("looking-wide");
    browser.click("#sign-out");
    browser.waitUntil("signed out", b -> !b.all("#login-form").isEmpty());
  }

  @Test
  void theSecondOfTwoOperatorsIsToldWhatTheFirstHasDone() {
    browser.open(address());
    signIn(Doors.ADA, Doors.PASSWORD);
    browser.waitForState("running");
    browser.click("#stop");
    browser.waitForText("#confirm-title", "Stop the batch?");
    Doors.Key cy = doors.signIn(CY);
    assertEquals(
        202, doors.post(cy, "/api/requests", "{\"type\":\"pause\",\"by\":\"x\"}").statusCode());
    browser.waitForState("paused");
    browser.click("#confirm-yes");
    browser.waitForText("#command-answer", "Cy Example: pause");
    browser.waitForText("#command-answer", "Look again");
    browser.picture("second-operator-wide");
    assertEquals(List.of(new Request.Pause(CY)), doors.bench.submitted);
    browser.click("#stop");
    browser.click("#confirm-yes");
    browser.waitForState("idle");
    assertEquals(2, doors.bench.submitted.size());
  }

  @Test
  void aPersonTakenOffTheListIsShownTheWayOut() {
    browser.open(address());
    signIn(Doors.ADA, Doors.PASSWORD);
    browser.waitForState("running");
    doors.write(new Person(CY, Role.OPERATE, Doors.HASH));
    doors.pass(3000);
    browser.waitUntil("the form is there", b -> !b.all("#login-form").isEmpty());
  }
}
