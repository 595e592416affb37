package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Pace;
import tarnish.controller.journal.SqliteJournal;
import tarnish.sim.SimulatedRig;

/** A batch whose steps were changed on the way, from its record again. */
class ChangedBatchTest {
  @TempDir private Path data;

  @Test
  void aBatchWithChangedStepsAndASkippedSoakReplaysToTheSameOutputsAndEvents() {
    LoadedFiles files = Demo.copper();
    Plan plan = Plan.of(files.recipe(), files.rig());
    SimulatedRig bench = new SimulatedRig(files.rig(), files.recipe(), 1);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    try (SqliteJournal journal = SqliteJournal.open(data, Pace.FAST)) {
      int batch =
          journal.begin(
              new BatchHead(
                  "changed",
                  files.recipeText(),
                  files.rigText(),
                  "2026-01-05T08:00:00Z",
                  "invented demonstration data",
                  1L));
      boolean changed = false;
      boolean skipped = false;
      while (run.millis() < 5 * 3_600_000L) {
        long next = run.millis() + files.rig().tickMillis();
        List<Request> requests = new ArrayList<>(operator.requests(run.state(), next / 1000.0));
        if (!changed && run.millis() > 600_000) {
          requests.add(
              new Request.ChangeStep(
                  "tester", 7, Map.of("for", 5400.0, "at", 428.15), "shorter, hotter", "well"));
          changed = true;
        }
        if (!skipped && run.state().stepPosition() == 5 && run.state().run() != null) {
          requests.add(new Request.CheckIn("tester", 4));
          requests.add(new Request.SkipSoak("tester", 5, "not wanted", "well"));
          skipped = true;
        }
        Turn turn = run.tickAt(next, requests);
        journal.tick(batch, next, "", run.readings(), requests, turn.outputs(), turn.events());
      }
      assertTrue(skipped, "the first soak was never reached");
      assertTrue(run.state().stepPosition() > 7, "only at step " + run.state().stepPosition());
      List<String> told =
          journal.entries(batch, List.of("StepChanged")).stream().map(e -> e.sentence()).toList();
      assertEquals(2, told.size(), told.toString());
      assertTrue(told.get(0).contains("2 h → 1 h 30 min"), told.get(0));
      assertTrue(told.get(1).contains("skipped after"), told.get(1));
      journal.flush();
      Replay.Outcome outcome = Replay.of(journal, batch);
      assertEquals("", outcome.firstDifference());
      assertEquals(5 * 3600 * 1000 / files.rig().tickMillis(), outcome.ticks());
    }
    bench.close();
  }
}
