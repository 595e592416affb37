package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.files.RigReader;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/**
 * Goal: a trip of {@code runaway} in a batch without faults counts as false unless the plant's own
 * reaction did it. Here the plant is given by hand, then by a sample with a heater but no reaction.
 */
class PlantRunawayTest {
  private static final double SAMPLE_J_PER_K = 6;
  private static final double OVEN_K = 400;

  /** Two thermocouples of 1.5 K: 12 K less twice 2.12 K. */
  private static final double AHEAD_K = 7.76;

  private final RigDescription rig =
      LoadedFiles.value(RigReader.read("bench.rig.yaml", DemoCommand.resource("bench.rig.yaml")));
  private PlantRunaway runaway = new PlantRunaway(rig, SAMPLE_J_PER_K);
  private double timeS;

  /** A sample that climbs for four seconds and ends so far ahead of its oven. */
  private boolean seen(double aheadK, double climbsKPerS, double heatW) {
    runaway = new PlantRunaway(rig, SAMPLE_J_PER_K);
    for (int i = 0; i <= 16; i++) {
      double toComeS = 4 - i / 4.0;
      put(OVEN_K + aheadK - climbsKPerS * toComeS, heatW);
    }
    return runaway.isThere();
  }

  private void put(double sampleK, double heatW) {
    timeS += 0.25;
    runaway.step(
        new Truth(timeS, OVEN_K, OVEN_K, OVEN_K, sampleK, 300, 5e4, 1e-3, 0, 0.5, 0, heatW, 4e-3));
  }

  @Test
  void whatClimbsAheadOfItsOvenByItsOwnHeatRunsAway() {
    assertTrue(seen(12, 0.25, 1.6));
    assertTrue(seen(AHEAD_K + 0.1, 0.13, 1.6));
    assertFalse(seen(AHEAD_K - 0.1, 0.13, 1.6), "no farther than thermocouples may be off");
    assertFalse(seen(12, 0.11, 1.6), "it hardly climbs");
  }

  @Test
  void whatDoesNotHeatItselfDoesNotRunAway() {
    assertFalse(seen(12, 0.25, 0));
    // 0.12 K/s of 6 J/K.
    assertFalse(seen(12, 0.25, 0.71));
    assertTrue(seen(12, 0.25, 0.73));
  }

  /** Four fifths of 0.8 K/s; of 6 J/K that is 3.84 W. */
  @Test
  void whatClimbsFasterThanAnyOvenRunsAwayWhereverItStands() {
    assertTrue(seen(-5, 0.7, 4));
    assertFalse(seen(-5, 0.6, 4));
    assertFalse(seen(-5, 0.7, 3.8));
  }

  @Test
  void whatIsOverForTenSecondsIsNoReasonAnyMore() {
    assertTrue(seen(12, 0.25, 1.6));
    for (int i = 0; i < 40; i++) {
      put(OVEN_K + 12, 0);
    }
    assertTrue(runaway.isThere(), "10 s: the row and the thermocouple take their time");
    put(OVEN_K + 12, 0);
    assertFalse(runaway.isThere());
  }

  /** A test heater of 10 W under the sample, which stands in what is pumped off: nothing reacts. */
  @Test
  void aTripOfAPlantWithoutReactionHeatIsFalse() {
    CampaignBench drawn = new CampaignBench(new SplittableRandom(1));
    Plan plan = Plan.of(drawn.recipe(), drawn.rig());
    SimulatedRig bench = new SimulatedRig(plan.rig(), plan.recipe(), 1);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    CampaignWatch watch = new CampaignWatch(plan, plan, bench);
    bench.heatSample(10);
    for (int i = 0; i < 240 && watch.trips().isEmpty(); i++) {
      ControlState before = run.state();
      List<Request> requests = i == 0 ? List.of(new Request.Start("somebody")) : List.of();
      Turn turn = run.tick(requests);
      assertEquals("", watch.check(before, turn, requests, run.readings()));
    }
    List<CampaignWatch.Trip> trips = watch.trips();
    assertEquals(List.of("runaway"), trips.stream().map(CampaignWatch.Trip::row).toList());
    assertEquals(0, bench.truth().heatRateW(), 1e-6);
    CampaignRun.Outcome outcome = outcome(trips);
    assertEquals(trips, outcome.unprovedTrips());
    CampaignSummary faultFree = new CampaignSummary(List.of(outcome), 1, true);
    assertEquals(1, faultFree.falseTrips());
    assertEquals(0, faultFree.tripsOfThePlant());
    assertEquals(List.of(outcome), faultFree.violations());
    assertEquals("'runaway' tripped and nothing was wrong", faultFree.violation(outcome));
    assertTrue(
        faultFree.words().contains("trips that the plant really had: 0, false trips: 1"),
        () -> faultFree.words().toString());
    assertEquals(List.of(), new CampaignSummary(List.of(outcome), 1, false).violations());
  }

  private static CampaignRun.Outcome outcome(List<CampaignWatch.Trip> trips) {
    return new CampaignRun.Outcome(
        1, "", List.of(), 60, "held", trips, new java.util.TreeSet<>(List.of("runaway")), 1);
  }

  /** A still hungry solid in the air of its opened vessel: 1.6 W, found by the seeds to 1000. */
  @Test
  void aRunawayThatThePlantReallyHadIsNone() {
    CampaignRun.Outcome outcome = new CampaignRun(939, incident -> false, "").run();
    assertEquals(List.of("runaway"), outcome.trips().stream().map(t -> t.row()).toList());
    assertEquals(List.of(), outcome.unprovedTrips());
    CampaignSummary summary = new CampaignSummary(List.of(outcome), 1, true);
    assertEquals(List.of(), summary.violations());
    assertEquals(1, summary.tripsOfThePlant());
    assertEquals(0, summary.falseTrips());
  }

  @Test
  void ofOtherRowsNothingIsProved() {
    CampaignWatch.Trip trip = new CampaignWatch.Trip("pump fails", 0, 0, 0, 0, false);
    CampaignSummary summary =
        new CampaignSummary(List.of(outcome(new ArrayList<>(List.of(trip)))), 1, true);
    assertEquals(1, summary.falseTrips());
  }
}
