package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigFile;
import tarnish.controller.instruments.PretendedBench;
import tarnish.controller.instruments.SerialPair;
import tarnish.controller.instruments.Wire;
import tarnish.controller.journal.SqliteJournal;
import tarnish.shared.recipe.Recipe;
import tarnish.sim.SimulatedRig;

/**
 * How evenly the packaged service ticks in real time, on the bench in equations behind real drivers
 * on pseudo-terminals, while pages look, the record is backed up and checkpointed, and the heap is
 * small enough for many collections.
 */
final class LoadedTicks {
  private static final int PAGES = 4;
  private static final long PERIOD_MILLIS = 250;

  /** The ticks before belong to the start of the batch. */
  private static final int FIRST_TICK = 9;

  private LoadedTicks() {}

  static String measure(Path folder, List<String> options, int watchS) throws Exception {
    Files.createDirectories(folder);
    try (SerialPair boardLine = SerialPair.open(folder, "board");
        SerialPair unitLine = SerialPair.open(folder, "unit")) {
      String rigText =
          Demo.text("instruments.rig.yaml")
              .replace("/tmp/tarnish-board", boardLine.near().toString())
              .replace("/tmp/tarnish-unit", unitLine.near().toString());
      Path rig = Files.writeString(folder.resolve("instruments.rig.yaml"), rigText);
      RigFile file = LoadedFiles.rigFile("instruments.rig.yaml", rigText);
      String recipeText =
          Demo.text("instruments-short.recipe.yaml").replace("for: 10 s", "for: 2 h");
      Recipe recipe =
          LoadedFiles.value(RecipeReader.read("short", recipeText, Optional.of(file.rig())));
      SimulatedRig simulated = new SimulatedRig(file.rig(), recipe, 1);
      simulated.watchHeartbeat(2);
      PretendedBench plant = new PretendedBench(file.rig(), simulated, System::nanoTime);
      Wire.toBoard(boardLine.far(), plant);
      Wire.toUnit(unitLine.far(), plant);
      Path data = folder.resolve("jitter");
      Lateness machine = serve(options, rig, data, recipeText, watchS);
      return "ticks under load of %d pages and 3 backups: %s%na thread that only wakes, beside them: %s"
          .formatted(PAGES, ticks(data), machine);
    }
  }

  /** Gives how evenly the machine let a thread wake meanwhile. */
  private static Lateness serve(
      List<String> options, Path rig, Path data, String recipe, int watchS) throws Exception {
    List<String> command = new ArrayList<>(Packaged.javaFirst());
    command.addAll(options);
    command.addAll(List.of("-jar", "target/tarnish.jar", "serve", "--rig", rig.toString()));
    command.addAll(List.of("--data", data.toString(), "--port", "0"));
    try (ServedProcess service = ServedProcess.launch(command);
        BareClock clock = BareClock.start(data.getParent(), Packaged.realTime(), PERIOD_MILLIS)) {
      Packaged.afterReady(service.pid());
      makeReady(service);
      service.begin(recipe);
      service.waitFor("a batch", s -> s.get("batch").isInt());
      List<Thread> pages = new ArrayList<>();
      for (int i = 0; i < PAGES; i++) {
        Thread page = new Thread(() -> look(service.address()), "page " + i);
        page.setDaemon(true);
        page.start();
        pages.add(page);
      }
      for (int i = 1; i <= 3; i++) {
        Thread.sleep(watchS * 1000L / 3);
        Main.run(
            new java.io.PrintWriter(System.out),
            new java.io.PrintWriter(System.err),
            "backup",
            data.resolveSibling("jitter-copy-" + i + ".db").toString(),
            "--data",
            data.toString());
      }
      pages.forEach(Thread::interrupt);
      return clock.lateness();
    }
  }

  /** Resets what the first moments without readings had latched. */
  private static void makeReady(ServedProcess service) throws Exception {
    for (int i = 0; i < 60 && !mayStart(service.status()); i++) {
      service.post("api/requests", "{\"type\":\"checkIn\",\"by\":\"tester\",\"hours\":8}");
      for (JsonNode alarm : service.status().get("alarms")) {
        service.post(
            "api/requests",
            "{\"type\":\"reset\",\"by\":\"tester\",\"reason\":\"looked\",\"alarm\":\""
                + alarm.get("id").asText()
                + "\"}");
      }
      Thread.sleep(500);
    }
    service.waitFor("no latched alarm", LoadedTicks::mayStart);
  }

  private static boolean mayStart(JsonNode status) {
    return status.get("mayAsk").toString().contains("\"start\"");
  }

  private static void look(String address) {
    HttpClient client = HttpClient.newHttpClient();
    try {
      while (!Thread.interrupted()) {
        for (String path :
            List.of("api/status", "api/batches/1/history?columns=600", "api/batches", "metrics")) {
          client.send(
              HttpRequest.newBuilder(URI.create(address + path)).build(),
              HttpResponse.BodyHandlers.discarding());
        }
        Thread.sleep(200);
      }
    } catch (IOException | InterruptedException over) {
      // The measurement is over.
    }
  }

  private static Lateness ticks(Path data) {
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      return Lateness.of(Jitter.times(journal, 1), FIRST_TICK, PERIOD_MILLIS);
    }
  }
}
