package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.sim.SimulatedRig;

/** One seed of a campaign: a batch in which things go wrong, watched at every tick. */
final class CampaignRun {
  /** The relay of the bench that watches the heartbeat drops after this, in s. */
  static final double HEARTBEAT_S = 1.5;

  private static final boolean TRACE = Boolean.getBoolean("tarnish.campaign.trace");
  private static final double LONGEST_S = 10 * 3600;
  private static final double AFTER_END_S = 60;
  private static final double GAP_S = 2;

  private final long seed;
  private final Plan plan;
  private final BenchRun run;
  private final SimulatedRig bench;
  private final CampaignOperator operator;
  private final List<Incident> incidents;
  private final CampaignWatch watch;
  private double endedS;
  private double absentUntilS;

  /**
   * @param seed of everything drawn
   * @param keep which incidents happen
   * @param without a row of the interlock table that is left out; empty for none
   */
  CampaignRun(long seed, Predicate<Incident> keep, String without) {
    this.seed = seed;
    SplittableRandom random = new SplittableRandom(seed);
    CampaignBench drawn = new CampaignBench(random.split());
    Plan whole = Plan.of(drawn.recipe(), drawn.rig());
    plan = without.isEmpty() ? whole : whole.without(without);
    bench = new SimulatedRig(plan.rig(), plan.recipe(), seed);
    bench.watchHeartbeat(HEARTBEAT_S);
    run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    operator = new CampaignOperator(plan, bench, random.split());
    incidents = IncidentDraw.draw(random.split(), drawn.favoured()).stream().filter(keep).toList();
    watch = new CampaignWatch(plan, whole, bench);
  }

  /**
   * What came of a seed.
   *
   * @param violation what was violated and when; empty for nothing
   * @param incidents what happened
   * @param simulatedS length of the batch
   * @param endState state in which it was left
   * @param trips first-out trips, with how long they took
   * @param raised every row that acted, first out or not
   * @param mostInAMinute the most times that one row came within a minute
   */
  record Outcome(
      long seed,
      String violation,
      List<Incident> incidents,
      double simulatedS,
      String endState,
      List<CampaignWatch.Trip> trips,
      Set<String> raised,
      int mostInAMinute) {
    boolean isGood() {
      return violation.isEmpty();
    }

    /** Trips of rows of which the plant is not proved to have had what they look for. */
    List<CampaignWatch.Trip> unprovedTrips() {
      return trips.stream().filter(trip -> !trip.inPlant()).toList();
    }
  }

  Outcome run() {
    String violation = "";
    while (violation.isEmpty() && !isOver()) {
      violation = tick();
    }
    if (violation.isEmpty()) {
      violation = end();
    }
    if (!violation.isEmpty()) {
      violation = "at " + run.millis() / 1000.0 + " s: " + violation;
    }
    return new Outcome(
        seed,
        violation,
        incidents,
        run.millis() / 1000.0,
        run.state().phase().words(),
        watch.trips(),
        Set.copyOf(watch.raised()),
        watch.mostInAMinute());
  }

  private boolean isOver() {
    BatchState phase = run.state().phase();
    double nowS = run.millis() / 1000.0;
    if (phase.isFinal() && endedS == 0) {
      endedS = nowS;
    }
    return nowS > LONGEST_S
        || (phase.isFinal() && nowS > endedS + AFTER_END_S)
        || (phase == BatchState.HELD && operator.hasGivenUp());
  }

  private String tick() {
    double fromS = run.millis() / 1000.0;
    double toS = fromS + plan.rig().tickMillis() / 1000.0;
    List<Request> requests = new ArrayList<>(0);
    double gapS = 0;
    Request.PowerReturned power = null;
    for (int i = 0; i < incidents.size(); i++) {
      Incident each = incidents.get(i);
      if (each.atS() >= fromS && each.atS() < toS) {
        switch (each.kind()) {
          case FAULT -> begin(each);
          case POWER_CUT -> power = new Request.PowerReturned("Tarnish", each.forS());
          case LOOP_STALL -> gapS = each.forS();
          case JOURNAL -> requests.add(trouble(InterlockTable.JOURNAL_NOT_WRITABLE));
          case CLOCK_LOST -> requests.add(trouble(InterlockTable.CLOCK_LOST));
          case CLOCK_STEPPED -> requests.add(trouble(InterlockTable.CLOCK_STEPPED));
          case SPILL -> bench.spill(0.2);
          case ABSENCE -> absentUntilS = toS + each.forS();
          case PRESS -> requests.add(operator.press(each.draw(), run.state()));
        }
      } else if (each.kind() == Incident.Kind.FAULT && ends(each, fromS, toS)) {
        bench.clear(each.fault());
      }
    }
    if (toS >= absentUntilS) {
      requests.addAll(operator.requests(run.state(), toS));
    }
    return step(requests, power, gapS, toS);
  }

  private static boolean ends(Incident each, double fromS, double toS) {
    double endS = each.atS() + each.forS();
    return endS >= fromS && endS < toS;
  }

  private void begin(Incident each) {
    bench.inject(each.fault(), each.severity());
    watch.faultBegins(each.fault(), run.millis());
  }

  private static Request trouble(String row) {
    return new Request.ShellTrouble("Tarnish", row, "campaign");
  }

  private String step(
      List<Request> requests, Request.PowerReturned power, double gapS, double toS) {
    ControlState before = run.state();
    if (power != null) {
      requests.add(0, power);
      Turn turn = run.tickAfterOutage(power, requests);
      watch.gap();
      return watch.check(before, turn, requests, run.readings());
    }
    if (gapS > plan.rig().tickMillis() / 1000.0) {
      String late = standStill(gapS);
      if (!late.isEmpty()) {
        return late;
      }
      watch.gap();
      long nowMillis = run.millis() + Math.round(gapS * 1000);
      Turn turn = run.decideAt(nowMillis, requests);
      String found = watch.check(before, turn, requests, run.readings());
      return found.isEmpty() && gapS > GAP_S + 0.1
          ? watch.mustBeUp(InterlockTable.LOOP_OVERRUN, turn.state())
          : found;
    }
    Turn turn = run.tickAt(Math.round(toS * 1000), requests);
    if (TRACE) {
      trace(turn);
    }
    return watch.check(before, turn, requests, run.readings());
  }

  /** For whoever looks into one seed: every event, and the bench once a minute. */
  private void trace(Turn turn) {
    double nowS = run.millis() / 1000.0;
    turn.events().forEach(event -> System.err.println(nowS + " " + event.sentence()));
    if (nowS % 60 == 0) {
      System.err.println(nowS + " " + turn.outputs().on() + " " + bench.truth());
    }
  }

  /** The loop stands still: only the relay that watches the heartbeat can act. */
  private String standStill(double gapS) {
    double passedS = 0;
    while (passedS < gapS) {
      double partS = Math.min(SimulatedRig.TICK_S, gapS - passedS);
      bench.advance(partS);
      passedS += partS;
      if (passedS >= GAP_S && bench.heaterW() > 0) {
        return "the heater is still on " + passedS + " s after the loop stood still";
      }
    }
    return "";
  }

  /** Whoever ends the batch finds everything off. */
  private String end() {
    for (int i = 0; i < 8; i++) {
      ControlState before = run.state();
      List<Request> requests = i == 0 ? List.of(new Request.Abort("end")) : List.of();
      Turn turn = run.tick(requests);
      String found = watch.check(before, turn, requests, run.readings());
      if (!found.isEmpty()) {
        return found;
      }
    }
    return watch.everythingOff(run.state());
  }
}
