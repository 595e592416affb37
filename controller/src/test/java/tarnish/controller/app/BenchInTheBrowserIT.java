package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Axe;
import tarnish.controller.service.Browser;
import tarnish.controller.service.WebService;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.Miswiring;
import tarnish.sim.SimulatedRig;
import tarnish.sim.WiredRig;

/** A person checks a bench whose thermocouples are swapped, and calibrates a gauge, at the page. */
class BenchInTheBrowserIT {
  private static final double SPEED = 30;

  private static Browser browser;

  @TempDir Path folder;

  private final String rigText = LoadedFiles.text(Demo.RIG);
  private final RigDescription rig = LoadedFiles.rig("rig", rigText);
  private final WiredRig wired =
      new WiredRig(
          new SimulatedRig(rig, NoBatch.recipe(rig), 1), Miswiring.SAMPLE_AND_OVEN_SWAPPED);
  private SqliteJournal journal;
  private LiveBench bench;
  private WebService web;

  @BeforeAll
  static void openBrowser() {
    browser = new Browser(1280, 1100);
  }

  @AfterAll
  static void closeBrowser() {
    browser.close();
  }

  @BeforeEach
  void serve() {
    journal = SqliteJournal.open(folder);
    bench =
        LiveBench.start(
            new LiveBench.Settings(
                rig,
                rigText,
                Map.of(),
                1,
                SPEED,
                false,
                (description, recipe, seed, before) -> new MiswiredBench(wired)),
            journal,
            "test");
    web = WebService.start(bench, "127.0.0.1", 0);
  }

  @AfterEach
  void end() {
    web.close();
    bench.close();
    journal.close();
  }

  private String address() {
    return "http://127.0.0.1:" + web.port() + "/";
  }

  private void arrive() {
    browser.size(1280, 1100);
    browser.open(address() + "bench.html");
    browser.waitForText("#free", "Check in before anything is switched");
    browser.type("#person", "Ann Example");
    browser.click("#check-in");
    browser.waitForText("#free", "Ann Example is at the bench");
  }

  @Test
  void swappedThermocouplesAreFoundByAHeatPulseUnderConfirmation() {
    arrive();
    browser.waitUntil("channels", page -> page.all("#channels tr").size() == 10);
    browser.picture("bench-at-rest");
    assertEquals(List.of(), Axe.violations(browser), "bench-at-rest");
    browser.click("#trials-guided button");
    browser.waitForText("#trial-question", "Pulse the heater for 2.50 s (2000 J)?");
    assertEquals(0, wired.bench().heaterW());
    assertFalse(browser.isEnabled("#trials-pulse button"));
    browser.picture("bench-asks");
    browser.click("#trial-yes");
    browser.waitForText("#trial-findings", "these two are swapped");
    browser.waitForText("#notes", "FAULT");
    browser.picture("bench-swapped");
    browser.size(360, 780);
    browser.picture("bench-swapped-narrow");
    assertEquals(
        Boolean.FALSE,
        browser.run("return document.documentElement.scrollWidth > innerWidth"),
        "wider than a telephone");
    assertEquals(List.of(), browser.complaints(address()));
  }

  @Test
  void aNoLeavesTheOutputAlone() {
    arrive();
    browser.click("#trials-pulse button");
    browser.waitForText("#trial-question", "Pulse the heater");
    browser.click("#trial-no");
    browser.waitForText("#trial-findings", "Ann Example ended it");
    assertEquals(0, wired.bench().heaterW());
  }

  @Test
  void aGaugeIsCalibratedAtThePageAndShowsItFromThenOn() {
    arrive();
    browser.waitUntil("channels", page -> page.all("#channels tr").size() == 10);
    choose("#cal-channel", "vessel pressure");
    wired.place(Channel.VESSEL_PRESSURE, 101_000);
    choose("#cal-place", "span: open to the room");
    browser.type("#cal-reference", "1030 mbar ± 0.5 mbar");
    settle();
    browser.click("#cal-mark");
    browser.waitForText("#bench-answer", "The upper point is taken.");
    wired.place(Channel.VESSEL_PRESSURE, 100);
    choose("#cal-place", "zero: pumped down");
    settle();
    browser.click("#cal-mark");
    browser.waitForText("#bench-answer", "The lower point is taken.");
    browser.waitForText("#cal-draft", "gain 1.0");
    browser.picture("bench-calibration");
    browser.click("#cal-accept");
    browser.waitForText("#calibrations", "vessel pressure");
    wired.place(Channel.VESSEL_PRESSURE, 101_000);
    browser.waitUntil(
        "the gauge shows what is true",
        page -> page.text("#channels").matches("(?s).*10(29[.][789]|30[.][0123]) mbar.*"));
    browser.waitForText("#notes", "Calibrated the vessel pressure");
    browser.size(360, 780);
    browser.picture("bench-calibration-narrow");
    assertEquals(List.of(), Axe.violations(browser), "bench-calibration-narrow");
    assertTrue(CalibrationFile.in(folder).read().has(Channel.VESSEL_PRESSURE));
    assertEquals(List.of(), browser.complaints(address()));
  }

  /** A whole look of ten simulated seconds. */
  private void settle() {
    long until = bench.status().loop().ticks() + 60;
    while (bench.status().loop().ticks() < until) {
      Thread.onSpinWait();
    }
  }

  private static void choose(String select, String begin) {
    browser.run(
        "const s = document.querySelector(arguments[0]);"
            + "s.selectedIndex = [...s.options].findIndex(o => o.value.startsWith(arguments[1]));"
            + "s.dispatchEvent(new Event('change'));",
        select,
        begin);
  }
}
