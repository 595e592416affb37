package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import tarnish.controller.control.Audit;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/** Watches one batch of a campaign: what must always be true, and what must be noticed. */
final class CampaignWatch {
  private final Audit audit;
  private final SimulatedRig bench;
  private final Invariants invariants;
  private final Oracles oracles;
  private final Plan plan;
  private final PlantRunaway runaway;
  private final List<Trip> trips = new ArrayList<>();
  private final Set<String> raised = new TreeSet<>();
  private final ChatterCount chatter = new ChatterCount();
  private long faultMillis = -1;

  /**
   * A first-out trip.
   *
   * @param row that tripped
   * @param sinceFaultS time since the last fault began; NaN without one
   * @param sinceBreachS time since what the row looks for was there in the plant; NaN where the row
   *     acted before
   * @param sampleMarginK how far the sample still was below its limit
   * @param ovenMarginK how far the oven still was below its limit
   * @param inPlant whether the plant is proved to have had what the row looks for; of all rows but
   *     {@code runaway} nothing is proved
   */
  record Trip(
      String row,
      double sinceFaultS,
      double sinceBreachS,
      double sampleMarginK,
      double ovenMarginK,
      boolean inPlant) {}

  /**
   * @param plan in force
   * @param whole the same with its whole interlock table
   */
  CampaignWatch(Plan plan, Plan whole, SimulatedRig bench) {
    this.plan = plan;
    this.bench = bench;
    audit = new Audit(plan);
    invariants = new Invariants(plan);
    oracles = new Oracles(plan, whole, bench);
    runaway = new PlantRunaway(plan.rig(), bench.spec().thermal().sampleJPerK());
  }

  List<Trip> trips() {
    return trips;
  }

  /** The most times that one row came within a minute. */
  int mostInAMinute() {
    return chatter.most();
  }

  /** Every row that acted until now. */
  Set<String> raised() {
    return raised;
  }

  void faultBegins(Fault fault, long nowMillis) {
    faultMillis = nowMillis;
    if (fault == Fault.RUNAWAY) {
      invariants.runawayBegins(bench.truth().oxygenMol(), bench.spec().thermal().sampleJPerK());
    }
  }

  /** Time was skipped: what was watched over a while begins anew. */
  void gap() {
    oracles.gap();
    invariants.gap();
  }

  /** What is violated after a tick, or empty. */
  String check(ControlState before, Turn turn, List<Request> requests, Readings raw) {
    Truth truth = bench.truth();
    runaway.step(truth);
    String found = invariants.check(before, turn, requests, raw, truth);
    if (found.isEmpty()) {
      found = oracles.check(turn, requests, raw, truth);
    }
    if (!turn.events().isEmpty()) {
      note(turn, truth);
      found = found.isEmpty() ? chatter.found() : found;
    }
    return found;
  }

  private void note(Turn turn, Truth truth) {
    for (Event event : turn.events()) {
      if (event instanceof Event.AlarmRaised alarm) {
        raised.add(alarm.alarm());
        chatter.raised(alarm.alarm(), turn.state().lastMillis());
        if (alarm.firstOut()) {
          trips.add(trip(alarm.alarm(), turn.state().lastMillis(), truth));
        }
      }
    }
  }

  private Trip trip(String row, long nowMillis, Truth truth) {
    return new Trip(
        row,
        faultMillis < 0 ? Double.NaN : (nowMillis - faultMillis) / 1000.0,
        oracles.sinceBreachS(row),
        plan.rig().attended().sampleMaxK() - truth.sampleK(),
        plan.rig().attended().ovenMaxK() - truth.wallK(),
        row.equals("runaway") && runaway.isThere());
  }

  String mustBeUp(String row, ControlState state) {
    int i = audit.of(state).row(row);
    return i >= 0 && audit.isActive(i) ? "" : "'" + row + "' did not act";
  }

  String everythingOff(ControlState state) {
    for (Switch each : Switch.values()) {
      boolean may = each == Switch.HEARTBEAT || each == Switch.VENT;
      if (!may && state.outputs().isOn(each)) {
        return "after the end " + each.words() + " is on";
      }
    }
    return state.outputs().heaterPerMille() == 0 ? "" : "after the end the heater has a duty";
  }
}
