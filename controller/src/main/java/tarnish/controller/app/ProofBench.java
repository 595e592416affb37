package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tarnish.controller.control.Audit;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.SimulatedRig;

/** Runs a trial: a batch on a simulated bench until the row acts, or too long has passed. */
final class ProofBench {
  private static final double LONGEST_S = 6 * 3600;
  private static final int USUAL_SOAK_C = 250;

  /** The first of a pair would act before its second, so it is left out while that is proved. */
  static final Map<String, String> FIRST_OF =
      Map.of(
          "second oven sensor too hot", "oven too hot",
          "second gauge pressure too high", "pressure too high");

  private final RigDescription rig;
  private final long seed;

  ProofBench(RigDescription rig, long seed) {
    this.rig = rig;
    this.seed = seed;
  }

  /**
   * What came of a trial.
   *
   * @param acted whether the row acted, with every output that it withholds off
   * @param withinS from the provocation to the outputs off, in s
   * @param first row that tripped first since then; empty where none did
   */
  record Result(String row, boolean acted, double withinS, String first) {}

  Result run(ProofTrial trial) {
    Recipe recipe = new ProofRecipe(rig, USUAL_SOAK_C).of(trial.course());
    RigDescription lowered = trial.rig().apply(rig);
    Plan plan = Plan.of(recipe, lowered).without(FIRST_OF.getOrDefault(trial.row(), ""));
    SimulatedRig bench = new SimulatedRig(lowered, recipe, seed);
    bench.watchHeartbeat(CampaignRun.HEARTBEAT_S);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator person = new StandInOperator(plan, bench);
    Audit audit = new Audit(plan);
    int row = audit.row(trial.row());
    double provokedS = -1;
    String first = "";
    while (run.millis() < LONGEST_S * 1000) {
      double nowS = (run.millis() + plan.rig().tickMillis()) / 1000.0;
      List<Request> requests = new ArrayList<>();
      if (!(trial.alone() && provokedS >= 0) && !leaves(trial, run.state())) {
        requests.addAll(person.requests(run.state(), nowS));
      }
      boolean now = provokedS < 0 && isTime(trial, audit.of(run.state()), run.state());
      if (now) {
        provokedS = nowS;
        trial.provoke().accept(bench);
        requests.addAll(trial.requests());
      }
      double gapS = now ? trial.gapS() : 0;
      Turn turn =
          run.tickAt(run.millis() + plan.rig().tickMillis() + Math.round(gapS * 1000), requests);
      first = first.isEmpty() ? firstOut(turn) : first;
      audit.of(run.state());
      if (provokedS >= 0 && row >= 0 && audit.isActive(row)) {
        boolean off = (run.state().outputs().switches() & audit.withheldBits()) == 0;
        return new Result(trial.row(), off, run.millis() / 1000.0 - provokedS, first);
      }
    }
    return new Result(trial.row(), false, Double.NaN, first);
  }

  private static String firstOut(Turn turn) {
    for (Event event : turn.events()) {
      if (event instanceof Event.AlarmRaised raised && raised.firstOut()) {
        return raised.alarm();
      }
    }
    return "";
  }

  /** In the course that nobody attends the person starts the batch and goes. */
  private static boolean leaves(ProofTrial trial, ControlState state) {
    return trial.course() == ProofTrial.Course.ALONE && state.lastMillis() > 0;
  }

  private static boolean isTime(ProofTrial trial, Audit audit, ControlState state) {
    return audit.stepKind().equals(trial.step()) && state.stepS() >= trial.afterS();
  }

  static Limits limits(Limits l, double sampleK, double ovenK, double sealK, double pressurePa) {
    return new Limits(sampleK, ovenK, sealK, pressurePa, l.rampMaxKPerS(), l.pulseMaxPa());
  }
}
