package tarnish.controller.service;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * The files of the page, read once from the class path. Only what is listed here is served, so that
 * no path can reach anything else.
 */
final class StaticFiles {
  /** One file as it is sent. */
  record Asset(String contentType, byte[] bytes) {}

  private static final String PAGE = "/web-ui/";
  private static final String CHART = "/META-INF/resources/webjars/uplot/1.6.30/";

  private static final String HTML = "text/html; charset=utf-8";
  private static final String CSS = "text/css; charset=utf-8";
  private static final String SCRIPT = "text/javascript; charset=utf-8";
  private static final String TEXT = "text/plain; charset=utf-8";

  private final Map<String, Asset> byPath = new TreeMap<>();

  StaticFiles() {
    add("/", HTML, PAGE + "index.html");
    add("/bench.html", HTML, PAGE + "bench.html");
    add("/bench.css", CSS, PAGE + "bench.css");
    add("/style.css", CSS, PAGE + "style.css");
    add("/login.html", HTML, PAGE + "login.html");
    add("/recipes.html", HTML, PAGE + "recipes.html");
    add("/icon.svg", "image/svg+xml", PAGE + "icon.svg");
    for (String script :
        new String[] {
          "alarms",
          "align",
          "app",
          "ask",
          "batches",
          "bench",
          "calibration",
          "changes",
          "charts",
          "commands",
          "compare",
          "dom",
          "entries",
          "gestures",
          "headline",
          "ledger",
          "login",
          "magnetic",
          "marks",
          "nav",
          "needs",
          "outage",
          "overlay",
          "person",
          "preflight",
          "presence",
          "proof",
          "recipes",
          "record",
          "service",
          "session",
          "start",
          "tables",
          "trend",
          "words"
        }) {
      add("/" + script + ".js", SCRIPT, PAGE + script + ".js");
    }
    add("/uplot/uPlot.js", SCRIPT, CHART + "dist/uPlot.iife.min.js");
    add("/uplot/uPlot.css", CSS, CHART + "dist/uPlot.min.css");
    add("/uplot/LICENSE", TEXT, CHART + "LICENSE");
  }

  Map<String, Asset> byPath() {
    return Collections.unmodifiableMap(byPath);
  }

  private void add(String path, String contentType, String resource) {
    try (InputStream in = StaticFiles.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("a file of the page is missing: " + resource);
      }
      byPath.put(path, new Asset(contentType, in.readAllBytes()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
