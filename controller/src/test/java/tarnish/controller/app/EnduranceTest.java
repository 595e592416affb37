package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Pace;
import tarnish.controller.journal.SqliteJournal;

/** The short version of {@code .ci/endurance}. */
class EnduranceTest {
  /** The setpoint's corners, the events in view and the compiler's own needs, in bytes. */
  private static final long HEAP_GROWTH_MAX = 8_000_000;

  /** A pool may keep a thread or a socket more at one moment than at another. */
  private static final int SLACK = 6;

  @Test
  void oneSimulatedDayWithOpenPagesLeavesHeapThreadsAndFilesAsTheyWere(@TempDir Path folder)
      throws Exception {
    List<Endurance.Picture> pictures =
        new Endurance(folder, Pace.FAST).run(1, 4, picture -> System.out.println(picture.words()));
    Endurance.Picture early = pictures.get(0);
    Endurance.Picture late = pictures.get(3);
    assertTrue(late.heapBytes() - early.heapBytes() < HEAP_GROWTH_MAX, late::words);
    assertTrue(late.threads() - early.threads() <= SLACK, late::words);
    assertTrue(late.files() - early.files() <= SLACK, late::words);
    assertTrue(pictures.stream().allMatch(each -> each.looks() > 0));
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      List<Journal.EventLine> events = journal.events(1, 0, Integer.MAX_VALUE);
      for (String kind : List.of("PulseGiven", "SoakEarned", "Weighed")) {
        assertTrue(events.stream().anyMatch(each -> each.kind().equals(kind)), kind);
      }
      for (Journal.BatchLine line : journal.batches()) {
        assertEquals("", Replay.of(journal, line.batch()).firstDifference());
      }
    }
  }
}
