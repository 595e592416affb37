package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class JournalCrashTest {
  @TempDir Path folder;

  @Test
  void aCopyTakenAtAnyTickHoldsEveryEventAndAllButASecondOfSamples() throws IOException {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(51, 2200, 0.05);
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("running"))) {
      int batch = journal.begin(BatchMaker.HEAD);
      for (int i = 0; i < ticks.size(); i++) {
        ticks.get(i).giveTo(journal, batch);
        if (i % 97 < 2 || i > 1020 && i < 1030) {
          Path copy = Files.createDirectory(folder.resolve("copy" + i));
          for (String name : List.of("tarnish.db", "tarnish.db-wal")) {
            Files.copy(folder.resolve("running").resolve(name), copy.resolve(name));
          }
          assertHolds(copy, ticks.subList(0, i + 1));
        }
      }
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 7, 1022, 1500})
  void aProcessThatHaltsInMidBatchLosesNoEvent(int haltAfter) throws Exception {
    Process child = start(61, haltAfter);
    try (BufferedReader said = child.inputReader()) {
      said.lines().forEach(line -> {});
    }
    assertTrue(child.waitFor(60, TimeUnit.SECONDS));
    assertEquals(9, child.exitValue());
    assertHolds(folder, BatchMaker.ticks(61, haltAfter, KilledChild.EVENTFUL_SHARE));
  }

  @Test
  void aProcessThatIsKilledLosesNoEventThatItHadReported() throws Exception {
    Process child = start(62, 0);
    int reported = 0;
    try (BufferedReader said = child.inputReader()) {
      for (int i = 0; i < 150; i++) {
        reported = Integer.parseInt(said.readLine());
      }
    } finally {
      child.destroyForcibly();
    }
    assertTrue(child.waitFor(60, TimeUnit.SECONDS));
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      List<Journal.RecordedTick> played = Played.all(journal, 1);
      assertTrue(played.size() >= reported, played.size() + " ticks, " + reported + " reported");
      Played.assertSame(BatchMaker.ticks(62, played.size(), KilledChild.EVENTFUL_SHARE), played);
    }
  }

  private Process start(long seed, int haltAfter) throws IOException {
    String classPath =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx64m",
            "-cp",
            classPath,
            KilledChild.class.getName(),
            folder.toString(),
            Long.toString(seed),
            Integer.toString(haltAfter))
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  /** The record is an unbroken beginning that ends less than a second before the last tick. */
  private static void assertHolds(Path copy, List<BatchMaker.Made> ticks) {
    try (SqliteJournal journal = SqliteJournal.open(copy)) {
      assertEquals("", journal.openingRemark());
      assertEquals(OptionalInt.of(1), journal.unfinished());
      List<Journal.RecordedTick> played = Played.all(journal, 1);
      Played.assertSame(ticks.subList(0, played.size()), played);
      long durable = played.get(played.size() - 1).millis();
      assertEquals(durable, journal.batches().get(0).lastMillis());
      assertTrue(ticks.get(ticks.size() - 1).millis() - durable < 1000);
      long events = ticks.stream().mapToLong(t -> t.requests().size() + t.events().size()).sum();
      assertEquals(events, journal.events(1, 0, Integer.MAX_VALUE).size());
      BatchMaker.Made last = ticks.get(ticks.size() - 1);
      int drawn =
          journal.history(1, 0, last.millis(), 10).series().stream()
              .filter(each -> each.channel().equals("sample temperature"))
              .mapToInt(each -> java.util.Arrays.stream(each.count()).sum())
              .sum();
      long good =
          played.stream()
              .filter(t -> t.readings().isGood(tarnish.shared.reading.Channel.SAMPLE_TEMPERATURE))
              .count();
      assertEquals(good, drawn);
    }
  }
}
