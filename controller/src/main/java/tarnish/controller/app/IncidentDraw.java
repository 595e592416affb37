package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import tarnish.controller.app.CampaignBench.Favoured;
import tarnish.controller.app.Incident.Kind;
import tarnish.sim.Fault;

/** Draws what goes wrong in one seed of a campaign. */
final class IncidentDraw {
  private static final double SPAN_S = 9000;

  /** Until then a batch evacuates, fills and tests for leaks. */
  private static final double EARLY_S = 500;

  private static final Kind[] SHELL = {
    Kind.POWER_CUT, Kind.LOOP_STALL, Kind.JOURNAL, Kind.CLOCK_LOST, Kind.CLOCK_STEPPED, Kind.SPILL
  };

  private final SplittableRandom random;
  private final List<Incident> incidents = new ArrayList<>();

  private IncidentDraw(SplittableRandom random) {
    this.random = random;
  }

  /**
   * @param favoured what this bench and recipe are made for; null for nothing
   */
  static List<Incident> draw(SplittableRandom random, Favoured favoured) {
    IncidentDraw draw = new IncidentDraw(random);
    if (favoured != null && random.nextBoolean()) {
      boolean down = favoured.fault() == Fault.OVEN_THERMOCOUPLE_DRIFT && random.nextBoolean();
      draw.addForGood(favoured, down ? -1 : 1);
    }
    // Half of the time alone, or something else would end nearly every such batch before it.
    boolean alone = !draw.incidents.isEmpty() && random.nextBoolean();
    int faults = alone || random.nextInt(8) == 0 ? 0 : random.nextInt(1, 4);
    for (int i = 0; i < faults; i++) {
      draw.fault();
    }
    int presses = Math.max(0, random.nextInt(12) - 4);
    for (int i = 0; i < presses; i++) {
      draw.add(Kind.PRESS, null, 0, 0);
    }
    if (random.nextInt(4) == 0) {
      draw.add(Kind.ABSENCE, null, random.nextDouble(600, 5400), 0);
    }
    return List.copyOf(draw.incidents);
  }

  private void fault() {
    if (random.nextInt(5) == 0) {
      Kind kind = SHELL[random.nextInt(SHELL.length)];
      double forS =
          switch (kind) {
            case POWER_CUT -> random.nextInt(2) == 0 ? span(2, 900) : span(60, 7200);
            case LOOP_STALL -> span(0.5, 90);
            default -> 0;
          };
      add(kind, null, forS, 0);
      return;
    }
    Fault[] faults = Fault.values();
    Fault fault = faults[random.nextInt(faults.length)];
    double severity = random.nextInt(2) == 0 ? 1 : random.nextDouble(0.05, 1);
    if (fault == Fault.OVEN_THERMOCOUPLE_DRIFT && random.nextBoolean()) {
      severity = -severity;
    }
    double forS = random.nextInt(3) == 0 ? span(1, 1200) : 1e9;
    boolean matters = fault == Fault.PUMP_FAILED || fault == Fault.INERT_SUPPLY_EMPTY;
    if (matters && random.nextBoolean()) {
      // It shows only while a batch is prepared.
      addForGood(Favoured.early(fault), 1);
    } else {
      add(Kind.FAULT, fault, forS, severity);
    }
  }

  private void addForGood(Favoured which, double severity) {
    double atS = random.nextDouble(which.fromS(), which.untilS());
    Fault fault = which.fault();
    incidents.add(
        new Incident(incidents.size(), Kind.FAULT, fault, atS, 1e9, severity, random.nextLong()));
  }

  /** Evenly over the magnitudes, for short and long matter alike. */
  private double span(double from, double to) {
    return from * Math.pow(to / from, random.nextDouble());
  }

  private void add(Kind kind, Fault fault, double forS, double severity) {
    double atS = random.nextDouble(20, random.nextInt(4) == 0 ? EARLY_S : SPAN_S);
    incidents.add(
        new Incident(incidents.size(), kind, fault, atS, forS, severity, random.nextLong()));
  }
}
