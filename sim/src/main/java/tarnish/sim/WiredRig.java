package tarnish.sim;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Rig;
import tarnish.shared.rig.Switch;
import tarnish.shared.sensors.Thermocouple;

/**
 * A simulated bench as somebody has wired it, mistakes included, whose thermocouples can be taken
 * out and put into a bath. For type K thermocouples. One thread at a time, but sensors may be
 * placed from another.
 */
public final class WiredRig implements Rig {
  private static final double TERMINALS_TOO_WARM_K = 12;
  private static final Channel SAMPLE = Channel.SAMPLE_TEMPERATURE;
  private static final Channel OVEN = Channel.OVEN_TEMPERATURE;

  private final SimulatedRig bench;
  private final Set<Miswiring> mistakes;
  private final Map<Channel, Double> baths = new EnumMap<>(Channel.class);

  public WiredRig(SimulatedRig bench, Miswiring... mistakes) {
    this.bench = bench;
    this.mistakes = EnumSet.noneOf(Miswiring.class);
    this.mistakes.addAll(Set.of(mistakes));
  }

  public SimulatedRig bench() {
    return bench;
  }

  /**
   * Puts a sensor's tip into something of a known temperature in K, or a gauge under a pressure.
   */
  public synchronized void place(Channel channel, double value) {
    baths.put(channel, value);
  }

  /** Puts a sensor back to where it belongs. */
  public synchronized void putBack(Channel channel) {
    baths.remove(channel);
  }

  @Override
  public synchronized void read(Readings into) {
    bench.read(into);
    baths.forEach((channel, value) -> into.good(channel, value + error(channel, into)));
    if (has(Miswiring.SAMPLE_AND_OVEN_SWAPPED) && into.isGood(SAMPLE) && into.isGood(OVEN)) {
      double sampleK = into.value(SAMPLE);
      into.good(SAMPLE, into.value(OVEN));
      into.good(OVEN, sampleK);
    }
    double roomK = into.valueOr(Channel.ROOM_TEMPERATURE, 295.15);
    if (has(Miswiring.SAMPLE_REVERSED)) {
      reverse(SAMPLE, into, roomK);
    }
    if (has(Miswiring.OVEN_REVERSED)) {
      reverse(OVEN, into, roomK);
    }
    if (has(Miswiring.SAMPLE_COLD_JUNCTION) && into.isGood(SAMPLE)) {
      double pairV = volt(into.value(SAMPLE)) - volt(roomK);
      put(SAMPLE, pairV, roomK + TERMINALS_TOO_WARM_K, into);
    }
  }

  /** What the sensor shows too much where it belongs; it shows it in a bath as well. */
  private double error(Channel channel, Readings shown) {
    double trueValue =
        switch (channel) {
          case SAMPLE_TEMPERATURE -> bench.truth().sampleK();
          case OVEN_TEMPERATURE -> bench.truth().wallK();
          case VESSEL_PRESSURE -> bench.truth().pressurePa();
          default -> Double.NaN;
        };
    return Double.isNaN(trueValue) || !shown.isGood(channel) ? 0 : shown.value(channel) - trueValue;
  }

  private boolean has(Miswiring mistake) {
    return mistakes.contains(mistake);
  }

  /** The pair gives -(E(tip) - E(terminals)). */
  private static void reverse(Channel channel, Readings into, double terminalsK) {
    if (into.isGood(channel)) {
      put(channel, volt(terminalsK) - volt(into.value(channel)), terminalsK, into);
    }
  }

  /** What the front end makes of the pair's voltage. */
  private static void put(Channel channel, double pairV, double terminalsK, Readings into) {
    Reading seen = Thermocouple.K.temperature(pairV, terminalsK);
    if (seen instanceof Reading.Good good) {
      into.good(channel, good.value());
    } else {
      into.bad(channel, ((Reading.Bad) seen).reason());
    }
  }

  private static double volt(double temperatureK) {
    return Thermocouple.K.voltage(temperatureK);
  }

  @Override
  public void write(Outputs outputs) {
    Outputs wired = outputs;
    if (has(Miswiring.OXYGEN_AND_VACUUM_SWAPPED)) {
      wired =
          wired
              .with(Switch.OXYGEN, outputs.isOn(Switch.VACUUM))
              .with(Switch.VACUUM, outputs.isOn(Switch.OXYGEN));
    }
    wired = inverted(wired, Miswiring.OXYGEN_INVERTED, Switch.OXYGEN);
    wired = inverted(wired, Miswiring.INERT_INVERTED, Switch.INERT);
    wired = inverted(wired, Miswiring.VACUUM_INVERTED, Switch.VACUUM);
    wired = inverted(wired, Miswiring.VENT_INVERTED, Switch.VENT);
    bench.write(wired);
  }

  private Outputs inverted(Outputs outputs, Miswiring mistake, Switch valve) {
    return has(mistake) ? outputs.with(valve, !outputs.isOn(valve)) : outputs;
  }

  @Override
  public void close() {
    bench.close();
  }
}
