package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.function.ObjIntConsumer;
import tarnish.controller.files.ProofRule;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.WebService;
import tarnish.controller.service.WebSettings;

/** Bench, record and page together until the process is asked to end. */
final class Service {
  private static final double SPEED_MAX = 100_000;

  private Service() {}

  static void run(
      LiveBench.Settings settings,
      Path data,
      WebSettings serving,
      PrintWriter out,
      ObjIntConsumer<LiveBench> whenServing) {
    if (!(settings.speed() > 0) || settings.speed() > SPEED_MAX) {
      throw new CommandFailure(
          "--speed is " + settings.speed() + "; it must be above 0 and at most " + SPEED_MAX + ".");
    }
    CountDownLatch ended = new CountDownLatch(1);
    ProofRule rule = LoadedFiles.rigFile("rig file", settings.rigText()).proof();
    ProofBook proofs = new ProofBook(settings.rig(), rule, new ProofRecord(data), LocalDate::now);
    try (StartedBench started = StartedBench.on(data, settings);
        WebService web = startPage(started.bench(), settings, data, proofs, serving)) {
      SqliteJournal journal = started.journal();
      LiveBench bench = started.bench().rehearsing();
      journal.checkLargeFile();
      if (!journal.openingRemark().isEmpty()) {
        out.println(journal.openingRemark());
      }
      out.println(
          "Tarnish serves " + settings.rig().name() + " at " + address(serving, web.port()));
      String warning = Serving.warning(serving);
      if (!warning.isEmpty()) {
        out.println(warning);
      }
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

  private static String address(WebSettings serving, int port) {
    String host = serving.host().equals("localhost") ? "127.0.0.1" : serving.host();
    return "http://" + (host.indexOf(':') >= 0 ? "[" + host + "]" : host) + ":" + port + "/";
  }

  private static WebService startPage(
      LiveBench bench,
      LiveBench.Settings settings,
      Path data,
      ProofBook proofs,
      WebSettings serving) {
    bench.proves(proofs);
    LiveWorkshop workshop = LiveWorkshop.open(bench, settings.recipes(), data);
    try {
      return WebService.start(bench, Optional.of(workshop), serving);
    } catch (IllegalStateException | IllegalArgumentException e) {
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
