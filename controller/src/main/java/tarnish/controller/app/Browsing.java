package tarnish.controller.app;

import java.io.IOException;

/** Opens the page in the person's browser where the desktop can do that. */
final class Browsing {
  private Browsing() {}

  static void open(String address) {
    boolean desktop = System.getenv("DISPLAY") != null || System.getenv("WAYLAND_DISPLAY") != null;
    if (!desktop) {
      return;
    }
    try {
      new ProcessBuilder("xdg-open", address)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .redirectError(ProcessBuilder.Redirect.DISCARD)
          .start();
    } catch (IOException noOpener) {
      // The address was printed; the person opens it.
    }
  }
}
