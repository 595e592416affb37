package tarnish.controller.app;

import com.sun.management.OperatingSystemMXBean;
import java.io.BufferedReader;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import tarnish.controller.journal.Pace;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Browser;
import tarnish.controller.service.WebService;
import tarnish.sim.SimulatedRig;

/**
 * Prints how heavy the page is, how soon it is seen, how soon two weeks of curves are there, and
 * whether fifty open pages move the control loop. Run by {@code .ci/figures-page}; no test, because
 * timing decides none.
 */
public final class ViewFigures {
  private static final Path TWO_WEEKS = Path.of("../sim/demo/copper-oxide-two-weeks.recipe.yaml");
  private static final int ROUNDS = 8;
  private static final int BLOCKS = 5;
  private static final int PAGES = 50;
  private static final int SETTLE_TICKS = 20;

  /** Work of this whole process, so that other processes on the machine do not count. */
  private static final OperatingSystemMXBean PROCESS =
      (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

  private ViewFigures() {}

  /** The argument is how many s each block of the loop is watched; 0 leaves that part out. */
  public static void main(String[] arguments) throws Exception {
    int watchS = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 60;
    System.out.println("processors " + Runtime.getRuntime().availableProcessors());
    Path data = Files.createTempDirectory("tarnish-view-figures");
    try (SqliteJournal journal = SqliteJournal.open(data, Pace.FAST)) {
      long started = System.nanoTime();
      new Rehearsal(LoadedFiles.read(TWO_WEEKS, Demo.RIG), 1, Optional.of(journal)).run();
      say("a batch of two weeks rehearsed and recorded", started);
    }
    curves(data);
    if (watchS > 0) {
      punctuality(watchS);
    }
  }

  private static void curves(Path data) throws Exception {
    LoadedFiles files = LoadedFiles.read(TWO_WEEKS, Demo.RIG);
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "figures");
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      long lastMillis = journal.batches().get(0).lastMillis();
      System.out.printf(
          Locale.ROOT,
          "batch of %.2f days, %,d ticks, %d MB on the disk%n",
          lastMillis / 86_400_000.0,
          lastMillis / 250,
          journal.bytes() / 1_000_000);
      String address = "http://127.0.0.1:" + web.port() + "/";
      HttpClient client = HttpClient.newHttpClient();
      String channels = "sample temperature,oven temperature,vessel pressure";
      String history =
          address
              + "api/batches/1/history?columns=1500&channels="
              + URLEncoder.encode(channels, StandardCharsets.UTF_8);
      asked("curves of the whole batch at the server", client, history);
      double middle = lastMillis / 2000.0;
      for (int span : new int[] {86_400, 3600, 60}) {
        String part = String.format(Locale.ROOT, "&from=%.3f&to=%.3f", middle, middle + span);
        asked("  " + span + " s of it", client, history + part);
      }
      asked("its marks", client, address + "api/batches/1/marks");
      onScreen(address);
    }
  }

  private static void asked(String what, HttpClient client, String address) throws Exception {
    List<Double> times = new ArrayList<>();
    List<Double> processor = new ArrayList<>();
    int bytes = 0;
    for (int round = 0; round < ROUNDS; round++) {
      long startedWork = PROCESS.getProcessCpuTime();
      long started = System.nanoTime();
      HttpResponse<byte[]> answer =
          client.send(
              HttpRequest.newBuilder(URI.create(address)).build(),
              HttpResponse.BodyHandlers.ofByteArray());
      times.add((System.nanoTime() - started) / 1e6);
      processor.add((PROCESS.getProcessCpuTime() - startedWork) / 1e6);
      bytes = answer.body().length;
      if (answer.statusCode() != 200) {
        throw new IllegalStateException(address + " gave " + answer.statusCode());
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%-44s %s ms, %s ms of processor, %d kB%n",
        what,
        words(times),
        words(processor),
        bytes / 1000);
  }

  /** The first is cold. */
  private static String words(List<Double> millis) {
    return millis.stream()
        .map(each -> String.format(Locale.ROOT, "%.0f", each))
        .collect(Collectors.joining(", "));
  }

  /** By the browser's own clock: first paint, and from the press to both curves drawn. */
  private static void onScreen(String address) {
    try (Browser browser = new Browser(1280, 900)) {
      for (int round = 0; round < ROUNDS; round++) {
        browser.open("about:blank");
        browser.open(address);
        browser.waitForText("#batches", "Copper");
        browser.waitUntil("it was painted", b -> paint(b) > 0);
        Object weight =
            browser.run(
                "return performance.getEntriesByType('resource').filter((e) =>"
                    + " !e.name.includes('/api/')).reduce((sum, e) => sum + e.decodedBodySize,"
                    + " performance.getEntriesByType('navigation')[0].decodedBodySize)");
        Object drawn =
            browser.runAsync(
                """
                const done = arguments[arguments.length - 1];
                const began = performance.now();
                document.querySelector("[data-batch='1']").click();
                const look = () => {
                  const canvas = document.querySelectorAll('#past-trend canvas');
                  if (canvas.length === 2) requestAnimationFrame(() => done(performance.now() - began));
                  else requestAnimationFrame(look);
                };
                look();
                """);
        System.out.printf(
            Locale.ROOT,
            "page: %.0f kB, first contentful paint %.0f ms; two weeks on screen %.0f ms after the"
                + " press%n",
            ((Number) weight).doubleValue() / 1000,
            paint(browser),
            ((Number) drawn).doubleValue());
      }
    }
  }

  private static double paint(Browser browser) {
    Object time =
        browser.run(
            "const e = performance.getEntriesByName('first-contentful-paint')[0];"
                + " return e ? e.startTime : -1");
    return ((Number) time).doubleValue();
  }

  /** A bench ticked by the clock, by turns with no page and with fifty, in the same process. */
  private static void punctuality(int watchS) throws Exception {
    LoadedFiles files = Demo.copper();
    TimedBench[] timed = new TimedBench[1];
    LiveBench.Settings settings =
        new LiveBench.Settings(
            files.rig(),
            files.rigText(),
            Map.of(),
            1,
            1,
            false,
            (rig, recipe, seed, before) -> {
              timed[0] = new TimedBench(new SimulatedRig(rig, recipe, seed), 1_000_000);
              return timed[0];
            });
    Path data = Files.createTempDirectory("tarnish-punctuality");
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "figures");
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      bench.startBatch(files.recipeText(), "figures");
      while (bench.status().batch() == null || timed[0].ticks() < SETTLE_TICKS) {
        Thread.sleep(50);
      }
      List<double[]> without = new ArrayList<>();
      List<double[]> with = new ArrayList<>();
      for (int block = 0; block < BLOCKS; block++) {
        without.add(watch(timed[0], watchS));
        try (Crowd crowd = new Crowd("http://127.0.0.1:" + web.port() + "/", PAGES)) {
          Thread.sleep(3000);
          with.add(watch(timed[0], watchS));
          System.out.println("block " + (block + 1) + ": answers and failures " + crowd.answers());
        }
      }
      System.out.printf(
          "%-12s %7s %9s %9s %9s %9s %9s%n",
          "interval, ms", "ticks", "p50", "p99", "p99.9", "max", "mean");
      row("0 pages", without);
      row(PAGES + " pages", with);
      System.out.println("overruns " + bench.status().loop().overruns());
    }
  }

  private static double[] watch(TimedBench bench, int seconds) throws InterruptedException {
    int from = bench.ticks();
    Thread.sleep(seconds * 1000L);
    return bench.intervals(from, bench.ticks());
  }

  private static void row(String name, List<double[]> blocks) {
    double[] all = blocks.stream().flatMapToDouble(Arrays::stream).sorted().toArray();
    System.out.printf(
        Locale.ROOT,
        "%-12s %7d %9.2f %9.2f %9.2f %9.2f %9.2f%n",
        name,
        all.length,
        quantile(all, 0.5),
        quantile(all, 0.99),
        quantile(all, 0.999),
        all[all.length - 1],
        Arrays.stream(all).average().orElse(0));
  }

  private static double quantile(double[] sorted, double share) {
    return sorted[Quantile.index(sorted.length, share)];
  }

  /** The pages, in a process of their own. */
  private static final class Crowd implements AutoCloseable {
    private final Process process;
    private final BufferedReader told;

    Crowd(String address, int pages) throws IOException {
      process =
          new ProcessBuilder(
                  ServedProcess.JAVA,
                  "-Xmx128m",
                  "-cp",
                  System.getProperty("java.class.path"),
                  PageCrowd.class.getName(),
                  address,
                  String.valueOf(pages),
                  "1")
              .redirectError(ProcessBuilder.Redirect.INHERIT)
              .start();
      told = process.inputReader();
    }

    String answers() throws IOException {
      process.outputWriter().write("\n");
      process.outputWriter().flush();
      return told.readLine();
    }

    @Override
    public void close() throws IOException {
      process.getOutputStream().close();
      try {
        process.waitFor();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private static void say(String what, long startedNanos) {
    System.out.printf(
        Locale.ROOT, "%s in %.1f s%n", what, (System.nanoTime() - startedNanos) / 1e9);
  }
}
