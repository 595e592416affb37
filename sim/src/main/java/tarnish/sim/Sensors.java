package tarnish.sim;

import java.util.List;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.SensorDescription;

/**
 * From true values to readings: first-order lag, systematic error, noise, range; {@code Readings}
 * quantises. The lag is exact for an input that moves in steps:
 *
 * <pre>
 *   y += (1 - exp(-h/tau)) (x - y)
 * </pre>
 */
final class Sensors {
  /** What a detached junction feels of its surroundings, in s. */
  private static final double DETACHED_LAG_S = 90;

  private static final double DRIFT_K_PER_S = 20.0 / 3600;
  private static final double JUMP_K = 100;
  private static final double GAUGE_OFF_PA = 5000;
  private static final double JUMP_SHARE = 0.2;
  private static final Channel[] CHANNELS = Channel.values();
  private static final Channel SAMPLE = Channel.SAMPLE_TEMPERATURE;
  private static final Channel OVEN = Channel.OVEN_TEMPERATURE;
  private static final Channel PRESSURE = Channel.VESSEL_PRESSURE;

  private final int count;
  private final int[] ordinal;
  private final double[] gain;
  private final double[] offset;
  private final double[] noise;
  private final double[] lagS;
  private final double[] min;
  private final double[] max;
  private final double[] share;
  private final double[] lagged;
  private final double[] reported;
  private final FaultPanel faults;
  private final SeededNoise random;
  private double shareForS = -1;
  private double detachedShare;
  private double detachedK;

  Sensors(BenchSpec spec, List<SensorDescription> fitted, double[] trueValues, FaultPanel faults) {
    this.faults = faults;
    this.random = new SeededNoise(spec.seed(), 2);
    count = fitted.size();
    ordinal = fitted.stream().mapToInt(s -> s.channel().ordinal()).toArray();
    noise = fitted.stream().mapToDouble(SensorDescription::noise).toArray();
    lagS = fitted.stream().mapToDouble(SensorDescription::lagS).toArray();
    min = fitted.stream().mapToDouble(SensorDescription::rangeMin).toArray();
    max = fitted.stream().mapToDouble(SensorDescription::rangeMax).toArray();
    gain = new double[count];
    offset = new double[count];
    share = new double[count];
    lagged = new double[count];
    reported = new double[count];
    for (int i = 0; i < count; i++) {
      SensorError error = errorOf(spec, CHANNELS[ordinal[i]]);
      gain[i] = 1 + error.gain();
      offset[i] = error.offset();
      lagged[i] = trueValues[ordinal[i]];
      reported[i] = lagged[i];
    }
    detachedK = trueValues[OVEN.ordinal()];
  }

  private static SensorError errorOf(BenchSpec spec, Channel channel) {
    return spec.sensorErrors().stream()
        .filter(e -> e.channel() == channel)
        .findFirst()
        .orElse(new SensorError(channel, 0, 0));
  }

  void takeFrom(Sensors other) {
    System.arraycopy(other.lagged, 0, lagged, 0, count);
    System.arraycopy(other.reported, 0, reported, 0, count);
    random.takeFrom(other.random);
    detachedK = other.detachedK;
  }

  /** Lets {@code seconds} pass with the true values, by ordinal of {@link Channel}. */
  void advance(double[] trueValues, double seconds) {
    if (seconds != shareForS) {
      prepare(seconds);
    }
    detachedK += detachedShare * (trueValues[OVEN.ordinal()] - detachedK);
    for (int i = 0; i < count; i++) {
      double felt = trueValues[ordinal[i]];
      if (faults.any() && ordinal[i] == SAMPLE.ordinal()) {
        felt += faults.severity(Fault.SAMPLE_THERMOCOUPLE_DETACHED) * (detachedK - felt);
      }
      lagged[i] += share[i] * (felt - lagged[i]);
    }
  }

  private void prepare(double seconds) {
    shareForS = seconds;
    detachedShare = -StrictMath.expm1(-seconds / DETACHED_LAG_S);
    for (int i = 0; i < count; i++) {
      share[i] = lagS[i] > 0 ? -StrictMath.expm1(-seconds / lagS[i]) : 1;
    }
  }

  void read(Readings into, double roomK, double nowS) {
    for (int i = 0; i < count; i++) {
      double value = lagged[i] * gain[i] + offset[i];
      if (noise[i] > 0) {
        value += noise[i] * random.gaussian();
      }
      Channel channel = CHANNELS[ordinal[i]];
      if (faults.any()) {
        BadReason reason = brokenReason(channel);
        if (reason != null) {
          into.bad(channel, reason);
          continue;
        }
        value = falsified(i, channel, value, roomK, nowS);
      }
      reported[i] = value;
      if (value >= min[i] && value <= max[i]) {
        into.good(channel, value);
      } else {
        into.bad(channel, value < min[i] ? BadReason.BELOW_RANGE : BadReason.ABOVE_RANGE);
      }
    }
  }

  /** Null where the device sees nothing wrong. */
  private BadReason brokenReason(Channel channel) {
    if (faults.isOn(Fault.INPUTS_SILENT)) {
      return BadReason.STALE;
    }
    if (channel == SAMPLE && faults.severity(Fault.SAMPLE_THERMOCOUPLE_SHORT) >= 1) {
      return BadReason.SHORT_CIRCUIT;
    }
    boolean open =
        (channel == SAMPLE && faults.isOn(Fault.SAMPLE_THERMOCOUPLE_OPEN))
            || (channel == OVEN && faults.isOn(Fault.OVEN_THERMOCOUPLE_OPEN))
            || (channel == PRESSURE && faults.isOn(Fault.PRESSURE_GAUGE_OPEN))
            || (channel == Channel.OVEN_TEMPERATURE_PAIR
                && faults.isOn(Fault.SECOND_OVEN_THERMOCOUPLE_OPEN))
            || (channel == Channel.VESSEL_PRESSURE_PAIR && faults.isOn(Fault.SECOND_GAUGE_OPEN))
            || (channel == Channel.SEAL_TEMPERATURE && faults.isOn(Fault.SEAL_SENSOR_OPEN))
            || (channel == Channel.ROOM_OXYGEN && faults.isOn(Fault.ROOM_OXYGEN_SENSOR_OPEN));
    return open ? BadReason.OPEN_CIRCUIT : null;
  }

  private double falsified(int i, Channel channel, double value, double roomK, double nowS) {
    if (channel == SAMPLE) {
      return sampleFalsified(i, value, roomK);
    }
    if (channel == OVEN && faults.isOn(Fault.OVEN_THERMOCOUPLE_DRIFT)) {
      double elapsedS = nowS - faults.sinceS(Fault.OVEN_THERMOCOUPLE_DRIFT);
      return value - faults.severity(Fault.OVEN_THERMOCOUPLE_DRIFT) * DRIFT_K_PER_S * elapsedS;
    }
    if (channel == PRESSURE && faults.isOn(Fault.PRESSURE_GAUGE_FROZEN)) {
      return reported[i];
    }
    if (channel == Channel.VESSEL_PRESSURE_PAIR) {
      return value + GAUGE_OFF_PA * faults.severity(Fault.SECOND_GAUGE_OFF);
    }
    return value;
  }

  private double sampleFalsified(int i, double value, double roomK) {
    if (faults.isOn(Fault.SAMPLE_THERMOCOUPLE_FROZEN)) {
      return reported[i];
    }
    double shorted = faults.severity(Fault.SAMPLE_THERMOCOUPLE_SHORT);
    double seen = value + shorted * (roomK - value);
    double jumping = faults.severity(Fault.SAMPLE_THERMOCOUPLE_JUMPING);
    if (jumping != 0 && random.uniform() < JUMP_SHARE) {
      seen += jumping * JUMP_K * (2 * random.uniform() - 1);
    }
    return seen;
  }
}
