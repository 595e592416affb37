package tarnish.controller.app;

import java.util.Optional;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Report;
import tarnish.shared.estimate.Estimate;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/** A simulated batch whose truth is compared with what control thinks, at two moments. */
final class TrialBatch {
  private static final long MILLIS_MAX = 40L * 24 * 3600 * 1000;

  /** A held batch is not watched for longer. */
  private static final int HELD_TICKS = 2400;

  /** What control thinks and what is so. */
  record Look(Estimate uptakeMol, double trueUptakeMol, Estimate perUnit, double truePerUnit) {}

  /**
   * @param seed of the bench and of everything that happens
   * @param under a random moment while it runs
   * @param end when it is over
   * @param isComplete whether the recipe came to its end
   * @param lostShare of the solid that was spilled
   * @param why it ended
   */
  record Outcome(
      long seed, Look under, Look end, boolean isComplete, double lostShare, String why) {}

  private TrialBatch() {}

  /**
   * @param lengthS usual length of the batch, for the random moment
   */
  static Outcome run(LoadedFiles files, BenchSpec spec, long seed, double lengthS) {
    Plan plan = Plan.of(files.recipe(), files.rig());
    SimulatedRig bench = new SimulatedRig(spec, files.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    Chance chance = new Chance(seed);
    TrialOperator operator = new TrialOperator(bench, chance);
    long lookMillis = Math.round(1000 * lengthS * chance.between(0.1, 0.9));
    Optional<Look> under = Optional.empty();
    int heldTicks = 0;
    while (!run.state().phase().isFinal() && run.millis() < MILLIS_MAX && heldTicks < HELD_TICKS) {
      long nextMillis = run.millis() + plan.rig().tickMillis();
      run.tickAt(nextMillis, operator.requests(run.state(), nextMillis / 1000.0));
      heldTicks = run.state().phase() == BatchState.HELD ? heldTicks + 1 : 0;
      if (under.isEmpty() && nextMillis >= lookMillis) {
        under = Optional.of(look(run, bench));
      }
    }
    Look end = look(run, bench);
    bench.close();
    boolean complete = run.state().phase() == BatchState.COMPLETE;
    return new Outcome(
        seed, under.orElse(end), end, complete, operator.lostShare(), run.state().phaseWhy());
  }

  private static Look look(BenchRun run, SimulatedRig bench) {
    Report report = new Report(run.plan(), run.state());
    Truth truth = bench.truth();
    return new Look(
        report.uptakeMol(), truth.uptakeMol(), report.oxygenPerUnit(), truth.oxygenPerUnit());
  }
}
