package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import java.util.function.ObjIntConsumer;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;

/** Bench, record and page together until the process is asked to end. */
final class Service {
  private static final String HOST = "127.0.0.1";
  private static final double SPEED_MAX = 100_000;

  private Service() {}

  static void run(
      LiveBench.Settings settings,
      Path data,
      int port,
      PrintWriter out,
      ObjIntConsumer<LiveBench> whenServing) {
    if (!(settings.speed() > 0) || settings.speed() > SPEED_MAX) {
      throw new CommandFailure(
          "--speed is " + settings.speed() + "; it must be above 0 and at most " + SPEED_MAX + ".");
    }
    CountDownLatch ended = new CountDownLatch(1);
    try (StartedBench started = StartedBench.on(data, settings);
        WebService web = startPage(started.bench(), port)) {
      SqliteJournal journal = started.journal();
      LiveBench bench = started.bench();
      journal.checkLargeFile();
      if (!journal.openingRemark().isEmpty()) {
        out.println(journal.openingRemark());
      }
      out.println(
          "Tarnish serves "
              + settings.rig().name()
              + " at http://"
              + HOST
              + ":"
              + web.port()
              + "/");
      out.println("Record: " + data.toAbsolutePath() + ". End with Ctrl-C: everything goes off.");
      out.flush();
      Thread main = Thread.currentThread();
      Runtime.getRuntime()
          .addShutdownHook(
              new Thread(
                  () -> {
                    ended.countDown();
                    joinQuietly(main);
                  }));
      whenServing.accept(bench, web.port());
      ended.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static WebService startPage(LiveBench bench, int port) {
    try {
      return WebService.start(bench, HOST, port);
    } catch (IllegalStateException e) {
      throw new CommandFailure(e.getMessage());
    }
  }

  private static void joinQuietly(Thread main) {
    try {
      main.join(5_000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
