package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Request;
import tarnish.controller.files.ProofRule;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Status;

/** A rig file may say that a bench whose proof tests are overdue runs attended only. */
class OverdueProofTest {
  private static final ProofRule STRICT = new ProofRule(90, ProofRule.WhenOverdue.ATTENDED_ONLY);

  /** Longer than any machine needs, so that a wait in vain ends. */
  private static final long GIVE_UP_NANOS = 60_000_000_000L;

  @TempDir private Path data;

  private static void await(LiveBench bench, Predicate<Status> condition) {
    long since = System.nanoTime();
    while (!condition.test(bench.status())) {
      assertTrue(System.nanoTime() - since < GIVE_UP_NANOS, () -> bench.status().state());
      Thread.onSpinWait();
    }
  }

  @Test
  void aBatchIsRefusedUntilSomebodyIsThereAndThenNeedsThemThroughout() {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      ProofRecord record = new ProofRecord(data);
      bench.proves(new ProofBook(files.rig(), STRICT, record, LocalDate::now));
      String refusal = bench.startBatch(files.recipeText(), "Ann").orElse("");
      assertTrue(refusal.startsWith("Proof tests are overdue: emergency stop"), refusal);
      assertTrue(refusal.endsWith("check in first, or do them."), refusal);

      bench.submit(new Request.CheckIn("Ann", 1));
      await(bench, status -> status.presence().attended());
      assertEquals(Optional.empty(), bench.startBatch(files.recipeText(), "Ann"));
      await(bench, status -> status.state().equals("running"));
      assertTrue(journal.head(1).note().contains("attended only: Proof tests are overdue"));

      bench.submit(new Request.CheckOut("Ann"));
      await(bench, status -> status.state().equals("paused"));
    }
  }

  @Test
  void aBenchThatIsProvedRunsAlone() {
    LoadedFiles files = Demo.copper();
    LiveBench.Settings settings =
        new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 1, 1, false);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      ProofBook book = new ProofBook(files.rig(), STRICT, new ProofRecord(data), LocalDate::now);
      bench.proves(book);
      InterlockTable.names(files.rig()).forEach(row -> book.note(row, true, "Ann", ""));
      assertEquals(Optional.empty(), bench.startBatch(files.recipeText(), "Ann"));
      await(bench, status -> status.state().equals("running"));
    }
  }
}
