package tarnish.controller.service;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;

/** A browser and, for each test, a fresh service with a bench that follows a script. */
abstract class PageFixture {
  static Browser browser;

  FakeBench bench;
  WebService service;

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
    service = FakeWorkshop.serve(bench, 0);
  }

  @AfterEach
  void stopService() {
    service.close();
  }

  String address() {
    return "http://127.0.0.1:" + service.port() + "/";
  }

  void openPage(Scene scene) {
    bench.show(scene);
    browser.size(1280, 900);
    browser.open(address());
    browser.waitForState(scene.state.words());
  }

  void giveName() {
    browser.type("#person", "Ada");
  }
}
