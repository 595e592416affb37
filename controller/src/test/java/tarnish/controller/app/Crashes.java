package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.SqliteJournal;

/**
 * Kills the real process at random moments of a running batch, again and again, and looks each time
 * at what is left on the disk and how it comes back. Run by {@code .ci/crashes}.
 */
final class Crashes {
  /** Times real time: a second between two kills is a minute of the batch. */
  private static final int SPEED = 60;

  private static final int KILLS_PER_BATCH = 25;
  private static final long RUN_MILLIS_MAX = 1500;
  private static final double WHILE_STARTING = 0.1;
  private static final double WHILE_HELD = 0.1;

  /** Most samples that may be lost, in ms of batch time: a second, and the tick in work. */
  private static final long LOSS_MAX_MILLIS = 1000;

  /** What the kills gave. */
  static final class Tally {
    int running;
    int held;
    int starting;
    int notHeld;
    int outputsOn;
    int eventsLost;
    int eventsSeen;
    long worstLossMillis;
    int lossesOverASecond;
    int replayDifferences;
    int setAside;
    final List<String> troubles = new ArrayList<>();

    int kills() {
      return running + held + starting;
    }

    boolean isClean() {
      return notHeld + outputsOn + eventsLost + lossesOverASecond + replayDifferences + setAside
          == 0;
    }

    String words() {
      return String.format(
          Locale.ROOT,
          "kills %d: %d running, %d held, %d starting%n"
              + "came back other than held     %d%n"
              + "an output on when held        %d%n"
              + "events seen, then lost        %d of %d%n"
              + "most samples lost             %d ms (over a second: %d)%n"
              + "replay differs                %d%n"
              + "record set aside              %d%n%s",
          kills(),
          running,
          held,
          starting,
          notHeld,
          outputsOn,
          eventsLost,
          eventsSeen,
          worstLossMillis,
          lossesOverASecond,
          replayDifferences,
          setAside,
          troubles.isEmpty() ? "" : String.join("\n", troubles) + "\n");
    }
  }

  private final Path folder;
  private final SplittableRandom random;
  private final Tally tally = new Tally();
  private final List<String> options;
  private int batches;
  private long endNanos;

  /**
   * @param options of the Java machine
   */
  Crashes(Path folder, long seed, List<String> options) {
    this.folder = folder;
    this.random = new SplittableRandom(seed);
    this.options = options;
  }

  /** Number of kills, and optionally the seed and the most minutes that they may take. */
  public static void main(String[] arguments) throws Exception {
    int kills = Integer.parseInt(arguments[0]);
    long seed = arguments.length > 1 ? Long.parseLong(arguments[1]) : 20261125L;
    long minutes = arguments.length > 2 ? Long.parseLong(arguments[2]) : 24 * 60;
    System.out.println("seed " + seed);
    Path folder = Files.createTempDirectory("tarnish-crashes");
    Tally tally = new Crashes(folder, seed, Packaged.options(folder)).run(kills, minutes);
    System.out.print(tally.words());
    System.exit(tally.isClean() ? 0 : 1);
  }

  Tally run(int kills, long minutes) throws Exception {
    endNanos = System.nanoTime() + minutes * 60_000_000_000L;
    while (isToGoOn(kills)) {
      batch(kills);
    }
    return tally;
  }

  private boolean isToGoOn(int kills) {
    return tally.kills() < kills && System.nanoTime() < endNanos;
  }

  private void batch(int kills) throws Exception {
    Path data = folder.resolve("record-" + ++batches);
    boolean begun = false;
    int inThis = 0;
    while (isToGoOn(kills) && inThis++ < KILLS_PER_BATCH) {
      if (begun && random.nextDouble() < WHILE_STARTING) {
        killWhileStarting(data);
      } else {
        begun = killWhileServing(data, begun);
      }
    }
  }

  private List<String> command(Path data) {
    List<String> command = new ArrayList<>(List.of(ServedProcess.JAVA));
    command.addAll(options);
    command.addAll(
        List.of("-jar", "target/tarnish.jar", "serve", "--rig", Demo.RIG.toString(), "--data"));
    command.addAll(List.of(data.toString(), "--port", "0", "--speed", Integer.toString(SPEED)));
    return command;
  }

  private void killWhileStarting(Path data) throws Exception {
    Process process =
        new ProcessBuilder(command(data))
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    process.waitFor(random.nextLong(RUN_MILLIS_MAX), TimeUnit.MILLISECONDS);
    process.destroyForcibly().waitFor();
    tally.starting++;
    check(data, List.of(), 0);
  }

  /** Gives whether a batch is under way. */
  private boolean killWhileServing(Path data, boolean begun) throws Exception {
    try (ServedProcess service = ServedProcess.launch(command(data))) {
      if (begun) {
        look(service.waitFor("a state", s -> s.get("batch").isInt()), data);
        if (random.nextDouble() < WHILE_HELD) {
          killAndCheck(service, data);
          tally.held++;
          return true;
        }
        goOn(service);
      } else {
        String recipe = Demo.copperUnrehearsed();
        service.begin(recipe);
      }
      service.waitForState("running");
      Thread.sleep(random.nextLong(RUN_MILLIS_MAX));
      if (random.nextBoolean()) {
        service.post("api/requests", "{\"type\":\"checkIn\",\"by\":\"tester\",\"hours\":8}");
      }
      killAndCheck(service, data);
      tally.running++;
      return true;
    }
  }

  private void goOn(ServedProcess service) throws Exception {
    service.post("api/requests", "{\"type\":\"checkIn\",\"by\":\"tester\",\"hours\":8}");
    service.waitFor(
        "attended",
        s ->
            s.get("presence").get("attended").asBoolean()
                || s.get("state").asText().equals("running"));
    service.post(
        "api/requests",
        "{\"type\":\"reset\",\"by\":\"tester\",\"alarm\":\"power returned\","
            + "\"reason\":\"looked at the bench\"}");
    service.waitFor("reset", s -> s.get("mayAsk").toString().contains("\"restart\""));
    service.post("api/requests", "{\"type\":\"restart\",\"by\":\"tester\"}");
  }

  /** A batch that comes back is held with everything off. */
  private void look(JsonNode status, Path data) {
    if (!status.get("state").asText().equals("held")) {
      tally.notHeld++;
      tally.troubles.add(data + " came back " + status.get("state"));
    }
    for (JsonNode output : status.get("outputs")) {
      String name = output.get("name").asText();
      boolean supplies = name.equals("heater") || name.equals("oxygen valve");
      if (supplies && output.get("on").asBoolean()) {
        tally.outputsOn++;
        tally.troubles.add(data + ": " + name + " is on");
      }
    }
  }

  private void killAndCheck(ServedProcess service, Path data)
      throws IOException, InterruptedException {
    JsonNode status = service.status();
    JsonNode events = service.get("api/batches/1/events").get("events");
    long seenMillis = service.status().get("batchMillis").asLong();
    service.kill();
    List<String> seen = new ArrayList<>();
    events.forEach(each -> seen.add(each.get("sentence").asText()));
    check(data, seen, status.get("batch").asInt() == 1 ? seenMillis : 0);
  }

  private void check(Path data, List<String> seen, long seenMillis) throws IOException {
    tally.eventsSeen += seen.size();
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      if (!journal.openingRemark().isEmpty()) {
        tally.setAside++;
        tally.troubles.add(journal.openingRemark());
        return;
      }
      List<String> kept =
          journal.events(1, 0, Integer.MAX_VALUE).stream()
              .map(Journal.EventLine::sentence)
              .toList();
      int lost = lost(seen, kept);
      tally.eventsLost += lost;
      long loss = seenMillis - journal.batches().get(0).lastMillis();
      tally.worstLossMillis = StrictMath.max(tally.worstLossMillis, loss);
      if (loss > LOSS_MAX_MILLIS) {
        tally.lossesOverASecond++;
      }
      String difference = Replay.of(journal, 1).firstDifference();
      if (!difference.isEmpty()) {
        tally.replayDifferences++;
        tally.troubles.add(data + ": " + difference);
      }
      if (lost > 0 || loss > LOSS_MAX_MILLIS) {
        tally.troubles.add(data + ": " + lost + " events and " + loss + " ms lost");
      }
    }
  }

  /** The page shows the newest events, so they must be in the record in the same order. */
  private static int lost(List<String> seen, List<String> kept) {
    int found = 0;
    int at = 0;
    for (String each : seen) {
      int next = at;
      while (next < kept.size() && !kept.get(next).equals(each)) {
        next++;
      }
      if (next < kept.size()) {
        found++;
        at = next + 1;
      }
    }
    return seen.size() - found;
  }
}
