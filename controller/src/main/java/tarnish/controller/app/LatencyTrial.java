package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import tarnish.controller.control.Audit;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;

/**
 * Provokes one row on one drawn bench at a drawn moment, and measures how long the plant was in
 * breach before the outputs were off, and how hot it got.
 */
final class LatencyTrial {
  private static final String RUNAWAY = "runaway";
  private static final String PERSON_NEEDED = "person needed";
  private static final double LONGEST_S = 9 * 3600;
  private static final double AFTERWARDS_S = 900;

  private final ProofTrial trial;
  private final RigDescription rig;
  private final Plan plan;
  private final SimulatedRig bench;
  private final BenchRun run;
  private final StandInOperator person;
  private final Audit audit;
  private final double afterS;
  private final double runawaySeverity;

  private double provokedS = -1;
  private double breachS = -1;
  private double offS = -1;
  private double peakSampleK;
  private double peakOvenK;
  private double sampleAtTripK;
  private double ovenAtTripK;

  /**
   * @param without a row that is left out, so that another has to act; empty for none
   * @param seed draws bench, moment and temperature
   */
  LatencyTrial(ProofTrial trial, RigDescription rig, String without, long seed) {
    this.trial = trial;
    this.rig = trial.rig().apply(rig);
    SplittableRandom random = new SplittableRandom(seed);
    Recipe recipe = new ProofRecipe(rig, soakC(trial, random)).of(trial.course());
    // The reaction gets six to sixteen times as fast; a hundred times is over before any reading.
    runawaySeverity = random.nextDouble(0.05, 0.15);
    boolean isLong = trial.step().equals("ramp") || trial.step().equals("soak");
    afterS = trial.afterS() + (isLong ? random.nextDouble(600) : 0);
    plan =
        Plan.of(recipe, this.rig)
            .without(ProofBench.FIRST_OF.getOrDefault(trial.row(), ""))
            .without(without);
    bench = new SimulatedRig(this.rig, recipe, seed);
    bench.watchHeartbeat(CampaignRun.HEARTBEAT_S);
    run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    person = new StandInOperator(plan, bench);
    audit = new Audit(plan);
  }

  /** A runaway is tried close below the limit, where the heat of the gas left over matters. */
  private static int soakC(ProofTrial trial, SplittableRandom random) {
    return trial.row().equals(RUNAWAY) ? random.nextInt(500, 521) : random.nextInt(100, 450);
  }

  /**
   * What was measured.
   *
   * @param acted whether any row that holds the batch or the row itself acted
   * @param latencyS from the breach in the plant to the outputs off; 0 where they were before it
   * @param sampleLeftK distance of the sample to its limit when the outputs went off
   * @param ovenLeftK the same for the oven
   * @param peakSampleK hottest sample from the provocation until a quarter of an hour later
   * @param peakOvenK hottest oven
   */
  record Measured(
      boolean acted,
      double latencyS,
      double sampleLeftK,
      double ovenLeftK,
      double peakSampleK,
      double peakOvenK) {}

  /** Until this row, or any of others where it is left out, has acted. */
  Measured run(List<String> anyOf) {
    while (run.millis() < LONGEST_S * 1000 && !isOver()) {
      tick(anyOf);
    }
    double latencyS = offS < 0 ? Double.NaN : breachS < 0 ? 0 : Math.max(0, offS - breachS);
    return new Measured(
        offS >= 0,
        latencyS,
        rig.unattended().sampleMaxK() - sampleAtTripK,
        rig.unattended().ovenMaxK() - ovenAtTripK,
        peakSampleK,
        peakOvenK);
  }

  private double nowS() {
    return run.millis() / 1000.0;
  }

  private boolean isOver() {
    return offS >= 0 && nowS() > offS + AFTERWARDS_S;
  }

  private void tick(List<String> anyOf) {
    double tickS = plan.rig().tickMillis() / 1000.0;
    List<Request> requests = new ArrayList<>();
    boolean leaves =
        trial.course() == ProofTrial.Course.ALONE && run.state().lastMillis() > 0
            || trial.alone() && provokedS >= 0;
    if (!leaves && offS < 0) {
      requests.addAll(person.requests(run.state(), nowS() + tickS));
    }
    boolean now =
        provokedS < 0
            && audit.of(run.state()).stepKind().equals(trial.step())
            && run.state().stepS() >= afterS;
    if (now) {
      provokedS = nowS() + tickS;
      trial.provoke().accept(bench);
      if (trial.row().equals(RUNAWAY)) {
        bench.inject(Fault.RUNAWAY, runawaySeverity);
      }
      requests.addAll(trial.requests());
      if (trial.gapS() > 0) {
        standStill(trial.gapS());
        run.decideAt(run.millis() + Math.round(trial.gapS() * 1000), requests);
        return;
      }
    }
    run.tickAt(run.millis() + plan.rig().tickMillis(), requests);
    look(anyOf);
  }

  /** While the loop stands still only the relay behind the heartbeat can switch off. */
  private void standStill(double gapS) {
    double fromS = nowS();
    breachS = fromS;
    for (double passedS = 0; passedS < gapS; passedS += SimulatedRig.TICK_S) {
      bench.advance(SimulatedRig.TICK_S);
      if (offS < 0 && bench.heaterW() == 0 && bench.oxygenOpening() == 0) {
        offS = fromS + passedS + SimulatedRig.TICK_S;
      }
    }
  }

  private void look(List<String> anyOf) {
    if (provokedS < 0) {
      return;
    }
    peakSampleK = Math.max(peakSampleK, bench.truth().sampleK());
    peakOvenK = Math.max(peakOvenK, bench.truth().wallK());
    boolean breach = LatencyBreach.isThere(trial.row(), rig, bench, run.state(), run.readings());
    if (!breach && trial.row().equals(PERSON_NEEDED)) {
      // Between two steps it looks like waiting for a tick.
      breachS = -1;
    }
    if (breachS < 0 && breach) {
      // Where the harm is the provocation itself it was there since then.
      breachS = nowS() == provokedS ? provokedS - plan.rig().tickMillis() / 1000.0 : nowS();
    }
    if (offS < 0 && hasActed(anyOf) && isOff()) {
      offS = nowS();
      sampleAtTripK = bench.truth().sampleK();
      ovenAtTripK = bench.truth().wallK();
    }
  }

  private boolean hasActed(List<String> anyOf) {
    audit.of(run.state());
    for (String each : anyOf) {
      int row = audit.row(each);
      if (row >= 0 && audit.isActive(row)) {
        return true;
      }
    }
    return false;
  }

  /** Everything withheld is off, and a heater that is withheld really draws nothing. */
  private boolean isOff() {
    Outputs told = run.state().outputs();
    int withheld = audit.withheldBits();
    boolean heat = (withheld & Audit.bit(tarnish.shared.rig.Switch.HEATER)) != 0;
    return (told.switches() & withheld) == 0 && !(heat && bench.heaterW() > 0);
  }
}
