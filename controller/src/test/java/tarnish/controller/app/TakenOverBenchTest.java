package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.service.Status;

/** Who checked in before the start is in the record of the batch that begins. */
@Timeout(600)
class TakenOverBenchTest {
  /** In the first oxygen, for which somebody has to be there. */
  private static final long DOSING_MILLIS = 900_000;

  @TempDir Path folder;

  private final LoadedFiles files = Demo.copper();
  private final LiveBench.Settings settings =
      new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 7, 1000, false);

  private static void await(LiveBench bench, Predicate<Status> wanted) throws InterruptedException {
    while (!wanted.test(bench.status())) {
      Thread.sleep(5);
    }
  }

  private void dose(LiveBench bench) throws InterruptedException {
    assertEquals(Optional.empty(), bench.startBatch(files.recipeText(), "Ada"));
    await(bench, now -> now.state().equals("running") && now.batchMillis() > DOSING_MILLIS);
  }

  @Test
  void batchesOfAPersonWhoIsThereAlreadyDoseAndCanBeRunAgainAndTakenUp() throws Exception {
    try (StartedBench started = StartedBench.on(folder, settings)) {
      LiveBench bench = started.bench();
      bench.submit(new Request.CheckIn("Ada", 12));
      await(bench, now -> now.presence().attended());
      dose(bench);
      bench.submit(new Request.Abort("Ada"));
      await(bench, now -> now.state().equals("aborted"));
      dose(bench);
    }
    try (StartedBench again = StartedBench.on(folder, settings)) {
      await(again.bench(), now -> now.state().equals("held"));
      for (int batch = 1; batch <= 2; batch++) {
        assertEquals("", Replay.of(again.journal(), batch).firstDifference());
        List<String> told =
            again.journal().entries(batch, List.of("PresenceChanged", "PulseGiven")).stream()
                .map(EventLine::sentence)
                .toList();
        assertEquals("Ada was checked in before", told.get(0));
        assertTrue(told.get(1).startsWith("Oxygen pulse 1"), told.get(1));
      }
    }
  }
}
