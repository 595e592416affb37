package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.SqliteJournal;
import tarnish.sim.SimulatedRig;

/** A power cut in the first heating of the invented copper batch, as the record tells it. */
class RecordedOutageTest {
  private static final double OUTAGE_S = 1200;

  private final LoadedFiles files = Demo.copper();
  private final Plan plan = Plan.of(files.recipe(), files.rig());
  private final SimulatedRig bench = new SimulatedRig(files.rig(), files.recipe(), 7);
  private final BenchRun run =
      new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
  private final StandInOperator operator = new StandInOperator(plan, bench);

  private void recordTick(SqliteJournal journal, List<Request> requests, Turn turn) {
    journal.tick(
        1,
        run.millis(),
        "2026-01-05T08:00:00Z",
        run.readings(),
        requests,
        turn.outputs(),
        turn.events());
  }

  private void step(SqliteJournal journal) {
    long next = run.millis() + 250;
    List<Request> requests = operator.requests(run.state(), next / 1000.0);
    recordTick(journal, requests, run.tickAt(next, requests));
  }

  @Test
  void theOutageStandsInTheThermalHistoryWithItsCoolingMarkedAsAnEstimate(@TempDir Path data)
      throws Exception {
    double trueHalfWayK;
    long cutMillis;
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      String started = "2026-01-05T08:00:00Z";
      journal.begin(
          new BatchHead("cut", files.recipeText(), files.rigText(), started, "invented", 7L));
      while (bench.truth().sampleK() < 390) {
        step(journal);
      }
      cutMillis = run.millis();
      trueHalfWayK = halfWayK();
      Request.PowerReturned back = new Request.PowerReturned("Tarnish", OUTAGE_S);
      recordTick(journal, List.of(back), run.tickAfterOutage(back, List.of(back)));
      Request abort = new Request.Abort("Ada");
      recordTick(journal, List.of(abort), run.tick(List.of(abort)));
      for (int i = 0; i < 20; i++) {
        recordTick(journal, List.of(), run.tick(List.of()));
      }
      journal.end(1, run.state().phase().words(), "{}");
    }
    Ran.well("record", 1, "--data", data, "--to", data);
    JsonNode told = new ObjectMapper().readTree(data.resolve("batch-1.json").toFile());
    assertEquals("", told.get("replayFirstDifference").asText());
    JsonNode outage = told.get("outages").get(0);
    assertEquals(cutMillis, outage.get("fromMillis").asLong());
    assertEquals(cutMillis + 1000 * OUTAGE_S, outage.get("toMillis").asDouble());
    String page = Files.readString(data.resolve("batch-1.html"));
    assertTrue(page.contains("Nobody was in control for 20 min, heater off"), page);
    assertTrue(page.contains("the dotted line there is an estimate"));
    assertTrue(page.contains("stroke-dasharray=\"1 4\""), "drawn dotted");
    // The oven gives off what it has stored for minutes before it cools as the estimate says.
    assertEquals(trueHalfWayK, estimateHalfWayK(outage.get("told")), 20, "estimated half-way");
  }

  /** On the same bench left alone for half of the time. */
  private double halfWayK() {
    try (SimulatedRig twin = bench.fork()) {
      twin.write(plan.rig().safeOutputs());
      twin.advance(OUTAGE_S / 2);
      return twin.truth().sampleK();
    }
  }

  private static double estimateHalfWayK(JsonNode told) {
    return new tarnish.controller.control.Event.Outage(
            told.get("outageS").asDouble(),
            told.get("beforeK").asDouble(),
            told.get("afterK").asDouble(),
            told.get("timeConstantS").asDouble())
        .estimateK(OUTAGE_S / 2);
  }
}
