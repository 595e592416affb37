package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Axe;
import tarnish.controller.service.Browser;
import tarnish.controller.service.FakeBench;
import tarnish.controller.service.Scene;
import tarnish.controller.service.WebService;

/**
 * Every view of the page, light and dark, on a telephone and a desk, under axe-core; pictures of
 * them under target/views, which web-ui/views holds a copy of.
 */
class ViewsIT {
  private static final int[] WIDTHS = {360, 1280};
  private static final Path VIEWS = Path.of("target", "views");

  @TempDir private static Path data;
  private static Browser browser;

  @BeforeAll
  static void rehearseTwoBatches() {
    for (int seed : new int[] {7, 8}) {
      run("rehearse", Demo.COPPER, "--rig", Demo.RIG, "--seed", seed, "--data", data);
    }
    browser = new Browser(1280, 900);
  }

  @AfterAll
  static void closeBrowser() {
    browser.close();
  }

  private static void run(Object... arguments) {
    StringWriter errors = new StringWriter();
    String[] words = Arrays.stream(arguments).map(Object::toString).toArray(String[]::new);
    assertEquals(
        0,
        Main.run(new PrintWriter(new StringWriter()), new PrintWriter(errors), words),
        errors::toString);
  }

  private final List<String> complaints = new ArrayList<>();

  /**
   * Comes to a view and looks at it: the page is opened once, and follows the width and the scheme.
   *
   * @param way what a person does to come to the view
   * @param place scrolls to what the picture is of
   */
  private void audit(String view, String address, Runnable way, Runnable place) {
    browser.size(1280, 900);
    browser.prefer(Browser.Scheme.LIGHT);
    browser.open(address);
    way.run();
    look(view, place);
  }

  private void look(String view, Runnable place) {
    for (Browser.Scheme scheme : Browser.Scheme.values()) {
      browser.prefer(scheme);
      for (int width : WIDTHS) {
        String name = view + "-" + scheme.name().toLowerCase(Locale.ROOT) + "-" + width;
        browser.size(width, 900);
        browser.waitUntil(
            name + " is no wider than the screen",
            b ->
                Boolean.TRUE.equals(
                    b.run(
                        "const root = document.documentElement;"
                            + " return innerWidth === arguments[0]"
                            + " && root.scrollWidth <= root.clientWidth",
                        width)));
        place.run();
        Axe.violations(browser).forEach(each -> complaints.add(name + ": " + each));
        browser.view(VIEWS.resolve(name + ".png"));
      }
    }
  }

  private static void top() {
    browser.run("scrollTo(0, 0)");
  }

  private static void at(String id) {
    browser.run("document.getElementById(arguments[0]).scrollIntoView()", id);
  }

  @Test
  void everySceneOfABatchCanBeUsedByEverybody() throws Exception {
    FakeBench bench = new FakeBench(Scene.RUNNING);
    try (WebService service = WebService.start(bench, "127.0.0.1", 0)) {
      String address = "http://127.0.0.1:" + service.port() + "/";
      for (Scene scene : Scene.values()) {
        bench.show(scene);
        audit(
            "now-" + scene.name().toLowerCase(Locale.ROOT),
            address,
            () -> {
              browser.waitForText("#batches", "first try");
              if (scene != Scene.IDLE) {
                browser.waitUntil("curves", b -> b.all("#trend canvas").size() == 2);
              }
            },
            ViewsIT::top);
      }
    }
    assertEquals(List.of(), complaints);
  }

  @Test
  void aLostServiceIsToldToEverybody() throws Exception {
    FakeBench bench = new FakeBench(Scene.RUNNING);
    try (WebService service = WebService.start(bench, "127.0.0.1", 0)) {
      browser.size(1280, 900);
      browser.prefer(Browser.Scheme.LIGHT);
      browser.open("http://127.0.0.1:" + service.port() + "/");
      browser.waitUntil("curves", b -> b.all("#trend canvas").size() == 2);
    }
    browser.waitForText("#lost", "lost since");
    browser.waitForText("#lost", "old");
    look("lost", ViewsIT::top);
    assertEquals(List.of(), complaints);
  }

  @Test
  void trendsRecordsAndComparisonsCanBeUsedByEverybody() throws Exception {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "0.1.0");
        WebService service = WebService.start(bench, "127.0.0.1", 0)) {
      String address = "http://127.0.0.1:" + service.port() + "/";
      audit("trend", address, ViewsIT::openPast, () -> at("past"));
      audit(
          "compare",
          address,
          () -> {
            choose();
            browser.click("#compare-table");
            browser.waitForText("#compare-rows", "O per formula unit");
          },
          () -> at("compare"));
      audit(
          "overlay",
          address,
          () -> {
            choose();
            browser.click("#compare-overlay");
            browser.waitUntil("curves", b -> b.all("#overlay canvas").size() == 2);
          },
          () -> at("compare"));
      audit(
          "record",
          address + "api/batches/1/record",
          () -> browser.waitForText("h1", "Batch 1: Copper powder"),
          ViewsIT::top);
    }
    assertEquals(List.of(), complaints);
  }

  private static void openPast() {
    browser.click("[data-batch='1']");
    browser.waitUntil("its curves are there", b -> b.all("#past-trend canvas").size() == 2);
    browser.waitForText("#past-trend .marks summary", "oxygen doses");
    browser.click("#past-trend .marks summary");
    browser.waitForText("#past-trend .marks tbody", "O vessel open");
    browser.waitForText("#past-trend .marks tbody", "P paused");
    browser.waitForText("#past-trend .marks tbody", "W weighed");
  }

  private static void choose() {
    browser.waitUntil("the list", b -> b.all("[data-choose]").size() == 2);
    for (int batch = 1; batch <= 2; batch++) {
      if (!browser.find("[data-choose='" + batch + "']").isSelected()) {
        browser.click("[data-choose='" + batch + "']");
      }
    }
  }

  /** The pictures that the repository keeps are not there to be forgotten. */
  @Test
  void picturesOfTheViewsAreKeptAndSmall() throws IOException {
    long bytes = 0;
    try (var files = Files.list(Path.of("../web-ui/views"))) {
      for (Path each : files.filter(file -> file.toString().endsWith(".png")).toList()) {
        bytes += Files.size(each);
      }
    }
    assertTrue(bytes > 100_000 && bytes < 1_000_000, bytes + " bytes of pictures");
  }
}
