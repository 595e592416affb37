package tarnish.controller.app;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import tarnish.controller.journal.CsvExport;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.SqliteJournal;

/**
 * Damages the files of an interrupted batch in many ways and starts the bench on each: control must
 * go on, and nothing may be read that was not written. Run by {@code .ci/crashes}.
 */
final class DamagedFiles {
  private static final List<String> PARTS = List.of("tarnish.db", "tarnish.db-wal");

  /** What is done to the files. */
  enum Damage {
    BIT_OF_FILE("a bit of the file turned"),
    BIT_OF_LOG("a bit of its log turned"),
    PAGE_OF_FILE("a page of the file zeroed"),
    FILE_CUT("the file cut short"),
    LOG_CUT("its log cut short");

    private final String words;

    Damage(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** What came of it; the last two must never be. */
  enum Outcome {
    ALL_THERE,
    SET_ASIDE,
    END_LOST_AND_TOLD,
    END_LOST,
    READ_OTHERWISE,
    NO_START
  }

  private final Path folder;
  private final SplittableRandom random;
  private final Path sound;
  private final String samples;
  private final String events;

  DamagedFiles(Path folder, long seed) throws IOException, InterruptedException {
    this.folder = folder;
    this.random = new SplittableRandom(seed);
    sound = Files.createDirectory(folder.resolve("sound"));
    record(Files.createDirectory(folder.resolve("running")), sound);
    try (SqliteJournal journal = SqliteJournal.open(copyOf("reference"))) {
      samples = text(journal, true);
      events = text(journal, false);
    }
  }

  public static void main(String[] arguments) throws Exception {
    int each = arguments.length > 0 ? Integer.parseInt(arguments[0]) / 5 : 100;
    long seed = arguments.length > 1 ? Long.parseLong(arguments[1]) : 20261125L;
    System.out.println("damaged files, seed " + seed);
    DamagedFiles files = new DamagedFiles(Files.createTempDirectory("tarnish-damaged"), seed);
    System.out.printf(
        "%-28s %9s %9s %9s %9s %9s %9s%n",
        "damage", "all there", "set aside", "end lost", "unnoticed", "otherwise", "no start");
    boolean clean = true;
    for (Damage damage : Damage.values()) {
      Map<Outcome, Integer> counts = files.run(damage, each);
      System.out.printf("%-28s", damage.words());
      for (Outcome outcome : Outcome.values()) {
        System.out.printf(" %9d", counts.getOrDefault(outcome, 0));
      }
      System.out.println();
      clean &= isClean(counts);
    }
    System.exit(clean ? 0 : 1);
  }

  static boolean isClean(Map<Outcome, Integer> counts) {
    return !counts.containsKey(Outcome.READ_OTHERWISE) && !counts.containsKey(Outcome.NO_START);
  }

  Map<Outcome, Integer> run(Damage damage, int times) throws IOException {
    Map<Outcome, Integer> counts = new EnumMap<>(Outcome.class);
    for (int i = 0; i < times; i++) {
      Path data = copyOf(damage + "-" + i);
      int at = harm(damage, data);
      Outcome outcome = outcome(data);
      if (outcome == Outcome.END_LOST) {
        System.out.println(damage + " at " + at + " was not noticed");
      }
      counts.merge(outcome, 1, Integer::sum);
      delete(data);
    }
    return counts;
  }

  /** Minutes of a batch, copied from under the running bench as a crash would leave it. */
  private static void record(Path running, Path to) throws IOException, InterruptedException {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings = settings(files);
    try (SqliteJournal journal = SqliteJournal.open(running);
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      bench.startBatch(files.recipeText(), "tester");
      while (bench.status().batchMillis() < 900_000) {
        Thread.sleep(5);
      }
      for (String part : PARTS) {
        Files.copy(running.resolve(part), to.resolve(part));
      }
    }
  }

  private static LiveBench.Settings settings(LoadedFiles files) {
    return new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 7, 300, false);
  }

  private Path copyOf(String name) throws IOException {
    Path data = Files.createDirectory(folder.resolve(name));
    for (String part : PARTS) {
      Files.copy(sound.resolve(part), data.resolve(part));
    }
    return data;
  }

  /** Where it was done. */
  private int harm(Damage damage, Path data) throws IOException {
    boolean log = damage == Damage.BIT_OF_LOG || damage == Damage.LOG_CUT;
    Path file = data.resolve(PARTS.get(log ? 1 : 0));
    byte[] bytes = Files.readAllBytes(file);
    int at = random.nextInt(bytes.length);
    switch (damage) {
      case BIT_OF_FILE, BIT_OF_LOG -> bytes[at] ^= (byte) (1 << random.nextInt(8));
      case PAGE_OF_FILE -> Arrays.fill(bytes, at & ~4095, (at & ~4095) + 4096, (byte) 0);
      default -> bytes = Arrays.copyOf(bytes, at);
    }
    Files.write(file, bytes);
    return at;
  }

  private Outcome outcome(Path data) {
    boolean told;
    boolean aside;
    try (StartedBench started = StartedBench.on(data, settings(Demo.copper()))) {
      told = !started.journal().openingRemark().isEmpty();
      aside = told && started.journal().openingRemark().contains("new, empty record");
      boolean held = started.bench().status().state().equals("held");
      if (!aside && !held && !started.bench().isTakenUp()) {
        // The batch is not known any more: its beginning was in what was lost.
        return told ? Outcome.END_LOST_AND_TOLD : Outcome.END_LOST;
      }
    } catch (RuntimeException e) {
      System.out.println(data.getFileName() + ": " + e);
      return Outcome.NO_START;
    }
    return aside ? Outcome.SET_ASIDE : compared(data, told);
  }

  /** What was recorded before the crash must be a beginning of what was written, to the letter. */
  private Outcome compared(Path data, boolean told) {
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      long returnedMillis =
          journal.events(1, 0, Integer.MAX_VALUE).stream()
              .filter(event -> event.kind().equals("Request.PowerReturned"))
              .mapToLong(Journal.EventLine::millis)
              .findFirst()
              .orElse(Long.MAX_VALUE);
      String foundSamples = before(text(journal, true), returnedMillis);
      String foundEvents = before(text(journal, false), returnedMillis);
      if (foundSamples.equals(samples) && foundEvents.equals(events)) {
        return Outcome.ALL_THERE;
      }
      if (samples.startsWith(foundSamples) && events.startsWith(foundEvents)) {
        return told ? Outcome.END_LOST_AND_TOLD : Outcome.END_LOST;
      }
      System.out.println(data.getFileName() + " reads otherwise");
      return Outcome.READ_OTHERWISE;
    } catch (JournalException e) {
      System.out.println(data.getFileName() + ": " + e.getMessage());
      return Outcome.READ_OTHERWISE;
    }
  }

  /** The lines of an export up to a time; headings begin with no number. */
  private static String before(String csv, long millis) {
    StringBuilder kept = new StringBuilder();
    for (String line : csv.split("(?<=\n)")) {
      String first = line.substring(0, StrictMath.max(0, line.indexOf(',')));
      boolean isTime = first.matches("[0-9.]+");
      if (!isTime || Double.parseDouble(first) * 1000 < millis - 0.5) {
        kept.append(line);
      }
    }
    return kept.toString();
  }

  private static String text(SqliteJournal journal, boolean ofSamples) {
    StringWriter text = new StringWriter();
    try {
      if (ofSamples) {
        CsvExport.samples(journal, 1, text);
      } else {
        CsvExport.events(journal, 1, text);
      }
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return text.toString();
  }

  private static void delete(Path data) throws IOException {
    try (Stream<Path> files = Files.list(data)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(data);
  }
}
