package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.management.UnixOperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicReference;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import java.util.function.Consumer;
import tarnish.controller.journal.Pace;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;

/**
 * The real loop, record and page for many simulated days at the speed of the processor, with pages
 * open all the time and somebody who answers questions and starts the next batch.
 */
final class Endurance {
  /** Faster than any processor, so that the loop never waits. */
  private static final double SPEED = 100_000;

  private static final int PAGES = 4;

  /** An open page asks once a second; asked much oftener, the pages would be what is tried. */
  private static final long LOOK_PAUSE_MILLIS = 500;

  private static final int COLLECTIONS = 6;
  private static final long BETWEEN_COLLECTIONS_MILLIS = 50;

  /**
   * What must not grow.
   *
   * @param days simulated until then
   * @param heapBytes in use after a collection, with no page asking for anything
   * @param latencyMillis 99 of 100 looks at the status since the last picture took no longer
   */
  record Picture(
      double days,
      long heapBytes,
      int threads,
      long files,
      double latencyMillis,
      long looks,
      long journalBytes) {

    String words() {
      return String.format(
          Locale.ROOT,
          "%6.2f days: heap %5.1f MB, threads %d, files %d, status p99 %.1f ms of %d looks,"
              + " record %.1f MB",
          days,
          heapBytes / 1e6,
          threads,
          files,
          latencyMillis,
          looks,
          journalBytes / 1e6);
    }
  }

  private final Path folder;
  private final LoadedFiles files = Demo.copper();
  private final ConcurrentLinkedQueue<Double> latencies = new ConcurrentLinkedQueue<>();
  private final AtomicReference<Throwable> failure = new AtomicReference<>();

  /** Pages look together; a picture is taken while none does. Fair, or it would never be. */
  private final ReentrantReadWriteLock looking = new ReentrantReadWriteLock(true);

  private volatile boolean over;

  private final Pace pace;
  private BenchKeeper keeper;

  /**
   * @param pace {@link Pace#DURABLE} as in the service; {@link Pace#FAST} where the disk is not
   *     what is tried
   */
  Endurance(Path folder, Pace pace) {
    this.folder = folder;
    this.pace = pace;
  }

  /** Prints a picture for each of so many parts of the time. */
  public static void main(String[] arguments) throws Exception {
    double days = arguments.length > 0 ? Double.parseDouble(arguments[0]) : 30;
    Path folder = Files.createTempDirectory("tarnish-endurance");
    new Endurance(folder, Pace.DURABLE)
        .run(days, 10, picture -> System.out.println(picture.words()));
  }

  List<Picture> run(double days, int parts, Consumer<Picture> seen) throws Exception {
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 7, SPEED, false);
    List<Picture> pictures = new ArrayList<>();
    List<Thread> pages = new ArrayList<>();
    try (SqliteJournal journal = SqliteJournal.open(folder, pace);
        LiveBench bench = LiveBench.start(settings, journal, "test");
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      for (int i = 0; i < PAGES; i++) {
        Thread page = new Thread(() -> look(web.port()), "page client " + i);
        pages.add(page);
        page.start();
      }
      keeper = new BenchKeeper(bench);
      warmUp(bench);
      for (int part = 1; part <= parts; part++) {
        runFor(bench, days / parts);
        pictures.add(picture(bench, days * part / parts));
        seen.accept(pictures.get(part - 1));
      }
      over = true;
      for (Thread page : pages) {
        page.join();
      }
    } finally {
      over = true;
    }
    if (failure.get() != null) {
      throw new AssertionError("a page failed", failure.get());
    }
    return pictures;
  }

  /** The first looks load classes and open connections that then stay. */
  private void warmUp(LiveBench bench) throws InterruptedException {
    do {
      act(bench);
      Thread.sleep(5);
    } while (latencies.size() < 100 && failure.get() == null);
  }

  /** Does what a person would while so much time is simulated, and until a page has looked. */
  private void runFor(LiveBench bench, double days) throws InterruptedException {
    long fromTicks = bench.status().loop().ticks();
    double ticks = days * 86_400_000 / files.rig().tickMillis();
    while ((bench.status().loop().ticks() - fromTicks < ticks || latencies.isEmpty())
        && failure.get() == null) {
      act(bench);
      Thread.sleep(5);
    }
  }

  private void act(LiveBench bench) {
    if (bench.status().mayAsk().contains("start")) {
      bench.startBatch(files.recipeText(), BenchKeeper.NAME);
    } else {
      keeper.look();
    }
  }

  private void look(int port) {
    HttpClient client = HttpClient.newHttpClient();
    String base = "http://127.0.0.1:" + port;
    try {
      while (!over) {
        looking.readLock().lock();
        try {
          lookOnce(client, base);
        } finally {
          looking.readLock().unlock();
        }
        Thread.sleep(LOOK_PAUSE_MILLIS);
      }
    } catch (IOException | RuntimeException | InterruptedException e) {
      failure.compareAndSet(null, e);
    }
  }

  private void lookOnce(HttpClient client, String base) throws IOException, InterruptedException {
    long before = System.nanoTime();
    JsonNode status = new ObjectMapper().readTree(get(client, base + "/api/status"));
    latencies.add((System.nanoTime() - before) / 1e6);
    get(client, base + "/metrics");
    get(client, base + "/api/batches");
    if (status.get("batch").isInt() && status.get("batchMillis").asLong() > 60_000) {
      String batch = base + "/api/batches/" + status.get("batch").asInt();
      get(client, batch + "/history?columns=600");
      get(client, batch + "/events");
    }
  }

  private static String get(HttpClient client, String address)
      throws IOException, InterruptedException {
    HttpResponse<String> answer =
        client.send(
            HttpRequest.newBuilder(URI.create(address)).build(),
            HttpResponse.BodyHandlers.ofString());
    if (answer.statusCode() >= 500) {
      throw new IOException(address + " gave " + answer.statusCode() + ": " + answer.body());
    }
    return answer.body();
  }

  private Picture picture(LiveBench bench, double days) throws InterruptedException {
    double[] millis = latencies.stream().mapToDouble(each -> each).sorted().toArray();
    latencies.clear();
    UnixOperatingSystemMXBean system =
        (UnixOperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
    return new Picture(
        days,
        heapBytes(),
        ManagementFactory.getThreadMXBean().getThreadCount(),
        system.getOpenFileDescriptorCount(),
        millis.length == 0 ? 0 : millis[(int) (0.99 * (millis.length - 1))],
        Arrays.stream(millis).count(),
        bench.journalBytes());
  }

  /**
   * What stays. An answer that is being made, and what the loop has put down since the collection,
   * come on top of it and go again: so no page looks meanwhile, and the least of several counts. A
   * leak is in each of them.
   */
  private long heapBytes() throws InterruptedException {
    looking.writeLock().lock();
    try {
      long least = Long.MAX_VALUE;
      for (int i = 0; i < COLLECTIONS; i++) {
        System.gc();
        long used = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
        least = Math.min(least, used);
        Thread.sleep(BETWEEN_COLLECTIONS_MILLIS);
      }
      return least;
    } finally {
      looking.writeLock().unlock();
    }
  }
}
