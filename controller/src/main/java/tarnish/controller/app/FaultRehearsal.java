package tarnish.controller.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Turn;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/**
 * What a single fault would do to a recipe, and what the interlocks would make of it. The batch is
 * rehearsed once; at each moment at which a fault may be at its worst, the bench is split off for
 * each fault and watched with nobody there. Of the moments, the one is told that came nearest to a
 * limit by the plant's own temperatures and pressure, which no fault of a sensor can hide.
 */
final class FaultRehearsal {
  private static final double WATCH_S = 2 * 3600;
  private static final long MILLIS_MAX = 90L * 24 * 3600 * 1000;

  /** What counts as equally near: 100 K and 100 mbar. */
  private static final double SCALE_K = 100;

  private static final double SCALE_PA = 1e4;

  private final LoadedFiles files;
  private final long seed;

  FaultRehearsal(LoadedFiles files, long seed) {
    this.files = files;
    this.seed = seed;
  }

  /**
   * One fault at its worst moment.
   *
   * @param fault in words
   * @param moment in words
   * @param atSeconds since the batch began
   * @param caughtBy the interlock that acted first after it; empty where none did
   * @param afterSeconds how long after the fault that was
   * @param endState of the batch after two hours, or when it was held
   * @param sampleMarginK least distance of the true sample from its limit; negative: beyond
   * @param ovenMarginK the same of the oven wall
   * @param pressureMarginPa the same of the vessel pressure
   */
  record Outcome(
      String fault,
      String moment,
      double atSeconds,
      String caughtBy,
      double afterSeconds,
      String endState,
      double sampleMarginK,
      double ovenMarginK,
      double pressureMarginPa) {

    /** Nearness to the nearest limit; smaller is worse. */
    double nearness() {
      return Math.min(Math.min(sampleMarginK, ovenMarginK) / SCALE_K, pressureMarginPa / SCALE_PA);
    }
  }

  /** The bench and control at a moment. */
  private record Moment(String words, SimulatedRig bench, ControlState state) {}

  /** Each fault at its worst moment, the worst fault first. */
  List<Outcome> run() {
    Plan plan = Plan.of(files.recipe(), files.rig());
    List<Moment> moments = moments(plan);
    List<Outcome> worst = new ArrayList<>();
    for (Fault fault : Fault.values()) {
      if (isFelt(fault)) {
        worst.add(
            moments.stream()
                .map(moment -> watch(plan, moment, fault))
                .min(Comparator.comparingDouble(Outcome::nearness))
                .orElseThrow());
      }
    }
    worst.sort(Comparator.comparingDouble(Outcome::nearness));
    return worst;
  }

  /** A fault of a sensor that the rig does not have is none. */
  private boolean isFelt(Fault fault) {
    return switch (fault) {
      case SECOND_OVEN_THERMOCOUPLE_OPEN -> fitted(Channel.OVEN_TEMPERATURE_PAIR);
      case SECOND_GAUGE_OPEN, SECOND_GAUGE_OFF -> fitted(Channel.VESSEL_PRESSURE_PAIR);
      case SEAL_SENSOR_OPEN -> fitted(Channel.SEAL_TEMPERATURE);
      case ROOM_OXYGEN_HIGH, ROOM_OXYGEN_LOW, ROOM_OXYGEN_SENSOR_OPEN ->
          fitted(Channel.ROOM_OXYGEN);
      case DOOR_OPEN -> fitted(Channel.DOOR);
      default -> true;
    };
  }

  private boolean fitted(Channel channel) {
    return files.rig().sensor(channel).isPresent();
  }

  /** Keeps, of everything seen, where each of some measures was greatest. */
  private List<Moment> moments(Plan plan) {
    SimulatedRig bench =
        new SimulatedRig(RehearsedBench.spec(files.rig(), files.recipe(), seed), files.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    Map<String, Moment> found = new LinkedHashMap<>();
    Map<String, Double> greatest = new LinkedHashMap<>();
    Outputs before = Outputs.OFF;
    while (!run.state().phase().isFinal()
        && run.state().phase() != BatchState.HELD
        && run.millis() < MILLIS_MAX) {
      long nextMillis = run.millis() + plan.rig().tickMillis();
      run.tickAt(nextMillis, operator.requests(run.state(), nextMillis / 1000.0));
      if (run.state().phase() == BatchState.RUNNING) {
        Outputs now = run.state().outputs();
        Truth truth = bench.truth();
        boolean pulse = now.isOn(Switch.OXYGEN) && !before.isOn(Switch.OXYGEN);
        Keeper keep = new Keeper(found, greatest, bench, run.state());
        keep.greatest("at the fullest heating", now.heaterPerMille() * 1e-3 + truth.wallK());
        keep.greatest("with the sample hottest", truth.sampleK());
        keep.greatest("at the highest pressure", truth.pressurePa());
        keep.greatest("as the reaction is fastest", truth.heatRateW());
        if (pulse) {
          keep.greatest("in the hottest oxygen pulse", truth.sampleK());
          keep.greatest("in the first oxygen pulse", -nextMillis);
        }
        if (now.isOn(Switch.VACUUM)) {
          keep.greatest("while evacuating", truth.sampleK());
        }
        before = now;
      }
    }
    bench.close();
    return List.copyOf(found.values());
  }

  /** A measure that rises is kept anew only after it rose by a little: splitting off costs time. */
  private record Keeper(
      Map<String, Moment> found,
      Map<String, Double> greatest,
      SimulatedRig bench,
      ControlState state) {
    private static final double NOTEWORTHY = 1.002;

    void greatest(String words, double value) {
      Double best = greatest.get(words);
      boolean more =
          best == null || (value > 0 ? value > best * NOTEWORTHY : value > best / NOTEWORTHY);
      if (more) {
        greatest.put(words, value);
        found.put(words, new Moment(words, bench.fork(), state));
      }
    }
  }

  private Outcome watch(Plan plan, Moment moment, Fault fault) {
    SimulatedRig bench = moment.bench().fork();
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), moment.state());
    double beganS = run.millis() / 1000.0;
    bench.inject(fault, 1);
    String caught = "";
    double afterS = 0;
    double sampleK = Double.MAX_VALUE;
    double ovenK = Double.MAX_VALUE;
    double pressurePa = Double.MAX_VALUE;
    double ticks = WATCH_S * 1000 / plan.rig().tickMillis();
    for (int i = 0; i < ticks; i++) {
      Turn turn = run.tick(List.of());
      for (Event event : turn.events()) {
        if (caught.isEmpty() && event instanceof Event.AlarmRaised raised) {
          caught = raised.alarm();
          afterS = run.millis() / 1000.0 - beganS;
        }
      }
      Limits limits = plan.limitsInForce(run.state());
      Truth truth = bench.truth();
      sampleK = Math.min(sampleK, limits.sampleMaxK() - truth.sampleK());
      ovenK = Math.min(ovenK, limits.ovenMaxK() - truth.wallK());
      pressurePa = Math.min(pressurePa, limits.pressureMaxPa() - truth.pressurePa());
    }
    bench.close();
    return new Outcome(
        fault.words(),
        moment.words(),
        beganS,
        caught,
        afterS,
        run.state().phase().words(),
        sampleK,
        ovenK,
        pressurePa);
  }
}
