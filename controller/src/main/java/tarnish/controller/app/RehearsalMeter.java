package tarnish.controller.app;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.Words;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/** What a rehearsal has used, and how near it came to each limit. Not thread-safe. */
final class RehearsalMeter {
  private static final List<Channel> LIMITED =
      List.of(
          Channel.SAMPLE_TEMPERATURE,
          Channel.OVEN_TEMPERATURE,
          Channel.SEAL_TEMPERATURE,
          Channel.VESSEL_PRESSURE);

  private final RigDescription rig;
  private final double[] highest = new double[LIMITED.size()];
  private final double[] nearest = new double[LIMITED.size()];
  private final double[] limitThere = new double[LIMITED.size()];
  private double heaterJ;
  private double admittedMol;
  private double gasBeforeMol;
  private boolean admitting;

  RehearsalMeter(RigDescription rig) {
    this.rig = rig;
    Arrays.fill(nearest, Double.MAX_VALUE);
  }

  /**
   * How near a reading came to its limit.
   *
   * @param channel in words
   * @param peak highest reading while the batch ran, SI
   * @param limit in force when the margin was least, SI
   * @param margin least distance of a reading from the limit in force, SI
   */
  record Margin(String channel, double peak, double limit, double margin) {}

  /** Looks at one tick: the readings that control saw and what it gave. */
  void look(BenchRun run, SimulatedRig bench, Outputs given) {
    double tickS = rig.tickMillis() / 1000.0;
    Heater heater = rig.heater();
    double duty =
        heater.actuator() == Heater.Actuator.RELAY
            ? (given.isOn(Switch.HEATER) ? 1 : 0)
            : given.heaterPerMille() / 1000.0;
    heaterJ += duty * heater.ratedPowerW() * tickS;
    admit(bench, given.isOn(Switch.OXYGEN));
    if (run.state().phase() != BatchState.RUNNING) {
      return;
    }
    Limits limits = run.plan().limitsInForce(run.state());
    Readings readings = run.readings();
    for (int i = 0; i < LIMITED.size(); i++) {
      Channel channel = LIMITED.get(i);
      if (readings.isGood(channel)) {
        double value = readings.value(channel);
        double limit = limit(channel, limits);
        highest[i] = Math.max(highest[i], value);
        if (limit - value < nearest[i]) {
          nearest[i] = limit - value;
          limitThere[i] = limit;
        }
      }
    }
  }

  /** The plant's own count of what came in while the oxygen valve was open. */
  private void admit(SimulatedRig bench, boolean openFromNow) {
    if (admitting || openFromNow) {
      Truth truth = bench.truth();
      double gasMol = truth.oxygenMol() + truth.inertMol() + truth.uptakeMol();
      admittedMol += admitting ? gasMol - gasBeforeMol : 0;
      gasBeforeMol = gasMol;
    }
    admitting = openFromNow;
  }

  double oxygenGasMol() {
    return admittedMol;
  }

  private static double limit(Channel channel, Limits limits) {
    return switch (channel) {
      case SAMPLE_TEMPERATURE -> limits.sampleMaxK();
      case OVEN_TEMPERATURE -> limits.ovenMaxK();
      case SEAL_TEMPERATURE -> limits.sealMaxK();
      default -> limits.pressureMaxPa();
    };
  }

  List<Margin> margins() {
    List<Margin> margins = new ArrayList<>();
    for (int i = 0; i < LIMITED.size(); i++) {
      if (nearest[i] < Double.MAX_VALUE) {
        margins.add(new Margin(LIMITED.get(i).words(), highest[i], limitThere[i], nearest[i]));
      }
    }
    return margins;
  }

  double heaterJ() {
    return heaterJ;
  }

  /** A margin for people. */
  static String words(Margin margin) {
    boolean pressure = margin.channel().equals(Channel.VESSEL_PRESSURE.words());
    Channel channel = pressure ? Channel.VESSEL_PRESSURE : Channel.SAMPLE_TEMPERATURE;
    String distance =
        pressure ? Words.value(channel, margin.margin()) : String.format("%.0f K", margin.margin());
    return "at most "
        + Words.value(channel, margin.peak())
        + "; never nearer than "
        + distance
        + " to the limit in force ("
        + Words.value(channel, margin.limit())
        + ")";
  }
}
