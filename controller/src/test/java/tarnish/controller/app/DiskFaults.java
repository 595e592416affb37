package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import tarnish.controller.journal.SqliteJournal;

/**
 * Full, read-only and failing disks under a running batch of the real process, and power cuts: the
 * medium as it is at a random moment. Run by {@code .ci/crashes}.
 */
final class DiskFaults {
  private static final int SPEED = 20;
  private static final int POWER_CUTS = 10;

  /**
   * @param held whether the batch was held with the alarm up
   * @param off whether heater and oxygen were off then
   * @param gapMillis longest interval between recorded ticks, after all was well again; -1 where
   *     nothing more could be recorded
   */
  record Row(String fault, boolean held, boolean off, long gapMillis, String replay) {
    boolean isClean() {
      return held && off && gapMillis <= 1500 && replay.isEmpty();
    }

    String words() {
      return String.format(
          "%-28s %-7s %-10s %10s  %s",
          fault,
          held ? "held" : "NOT HELD",
          off ? "off" : "ON",
          gapMillis < 0 ? "-" : gapMillis + " ms",
          replay.isEmpty() ? "agrees" : replay);
    }
  }

  private final Path folder;

  DiskFaults(Path folder) {
    this.folder = folder;
  }

  public static void main(String[] arguments) throws Exception {
    String whyNot = SmallDisk.whyNot();
    if (!whyNot.isEmpty()) {
      System.out.println("Skipped: " + whyNot);
      return;
    }
    DiskFaults faults = new DiskFaults(Files.createTempDirectory("tarnish-disks"));
    System.out.printf(
        "%-28s %-7s %-10s %10s  %s%n", "disk", "batch", "supplies", "worst gap", "replay");
    boolean clean = tell(faults.full());
    clean &= tell(faults.readOnly());
    clean &= tell(faults.failing());
    for (int i = 1; i <= POWER_CUTS; i++) {
      clean &= tell(faults.powerCut(i));
    }
    System.exit(clean ? 0 : 1);
  }

  private static boolean tell(Row row) {
    System.out.println(row.words());
    return row.isClean();
  }

  private ServedProcess serve(Path data) throws IOException {
    return ServedProcess.start(
        "serve",
        "--rig",
        Demo.RIG.toString(),
        "--data",
        data.toString(),
        "--port",
        "0",
        "--speed",
        Integer.toString(SPEED));
  }

  private static void begin(ServedProcess service, long untilMillis) throws Exception {
    String recipe = Demo.copperUnrehearsed();
    service.begin(recipe);
    service.waitFor(
        "a running batch",
        s ->
            s.get("state").asText().equals("running")
                && s.get("batchMillis").asLong() > untilMillis);
  }

  /** Held with the alarm of the record that cannot be written. */
  private static JsonNode held(ServedProcess service) throws Exception {
    return service.waitFor(
        "held",
        s ->
            s.get("state").asText().equals("held")
                && s.get("alarms").toString().contains("journal not writable"));
  }

  private static boolean isOff(JsonNode status) {
    for (JsonNode output : status.get("outputs")) {
      String name = output.get("name").asText();
      if ((name.equals("heater") || name.equals("oxygen valve")) && output.get("on").asBoolean()) {
        return false;
      }
    }
    return true;
  }

  private static long gap(Path data) {
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      return Jitter.of(journal, 1, 0).worst();
    }
  }

  private static String replay(Path data) {
    StringWriter out = new StringWriter();
    StringWriter errors = new StringWriter();
    int status =
        Main.run(
            new PrintWriter(out),
            new PrintWriter(errors),
            "replay",
            "1",
            "--data",
            data.toString());
    return status == 0 ? "" : errors.toString().strip();
  }

  /** Nothing is lost once there is room again. */
  Row full() throws Exception {
    try (SmallDisk disk = SmallDisk.make(Files.createDirectory(folder.resolve("full")))) {
      boolean off;
      try (ServedProcess service = serve(disk.data())) {
        begin(service, 20_000);
        disk.fill();
        JsonNode held = held(service);
        off = isOff(held);
        long then = held.get("batchMillis").asLong();
        service.waitFor(
            "a minute without room", s -> s.get("batchMillis").asLong() > then + 60_000);
        disk.makeRoom();
        service.waitFor("a minute with room", s -> s.get("batchMillis").asLong() > then + 120_000);
      }
      return new Row("full, then room", true, off, gap(disk.data()), replay(disk.data()));
    }
  }

  /** What had been recorded is there after a repair; the batch comes back held. */
  Row readOnly() throws Exception {
    return broken("turned read-only", SmallDisk::turnReadOnly);
  }

  Row failing() throws Exception {
    return broken("I/O errors", SmallDisk::failWrites);
  }

  /** How a disk breaks. */
  private interface Breaking {
    void happen(SmallDisk disk) throws IOException, InterruptedException;
  }

  private Row broken(String name, Breaking breaking) throws Exception {
    Path where = Files.createDirectory(folder.resolve(name.replaceAll("\\W", "-")));
    try (SmallDisk disk = SmallDisk.make(where)) {
      boolean off;
      try (ServedProcess service = serve(disk.data())) {
        begin(service, 20_000);
        breaking.happen(disk);
        off = isOff(held(service));
        service.kill();
      }
      Path rest = Files.createDirectory(folder.resolve(where.getFileName() + "-rest"));
      for (String part : List.of("tarnish.db", "tarnish.db-wal")) {
        Path file = disk.data().resolve(part);
        if (Files.exists(file)) {
          Files.copy(file, rest.resolve(part));
        }
      }
      return new Row(name, true, off, gap(rest), replay(rest));
    }
  }

  /** The file system's own log is played back by the mount, as after a real cut. */
  Row powerCut(int number) throws Exception {
    Path where = Files.createDirectory(folder.resolve("cut-" + number));
    Path after = Files.createDirectory(folder.resolve("cut-" + number + "-after"));
    try (SmallDisk disk = SmallDisk.make(where)) {
      long seenMillis;
      SmallDisk copy;
      try (ServedProcess service = serve(disk.data())) {
        begin(service, 10_000L * number);
        seenMillis = service.status().get("batchMillis").asLong();
        copy = disk.copyOfMedium(after);
        service.kill();
      }
      try (copy) {
        boolean held;
        boolean off;
        long lost;
        try (SqliteJournal journal = SqliteJournal.open(copy.data())) {
          lost = seenMillis - journal.batches().get(0).lastMillis();
        }
        try (ServedProcess service = serve(copy.data())) {
          JsonNode status = service.waitForState("held");
          held = true;
          off = isOff(status);
        }
        String replay = replay(copy.data());
        return new Row("power cut " + number, held, off, StrictMath.max(0, lost), replay);
      }
    }
  }
}
