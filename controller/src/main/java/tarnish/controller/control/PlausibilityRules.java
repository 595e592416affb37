package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/** What can be believed of each sensor of a rig; worked out once for a plan. */
final class PlausibilityRules {
  /** Chance that a live sensor stands still for a whole window. */
  private static final double LOG_CHANCE = StrictMath.log(1e-12);

  private static final double WINDOW_LEAST_S = 5;
  private static final double WINDOW_MOST_S = 600;

  /** No thermometer with its own lag of seconds moves faster, in K/s. */
  private static final double TEMPERATURE_MOST_K_PER_S = 40;

  /** A pump on a small vessel, or the vessel opened, moves the pressure no faster, in Pa/s. */
  private static final double PRESSURE_MOST_PA_PER_S = 160_000;

  private final Channel[] watched;
  private final long[] stillMillis = new long[Channel.COUNT];
  private final double[] mostPerTick = new double[Channel.COUNT];

  private PlausibilityRules() {
    watched = new Channel[0];
  }

  /** Believes every value that a device calls good. */
  static PlausibilityRules none() {
    return new PlausibilityRules();
  }

  private PlausibilityRules(RigDescription rig) {
    List<Channel> channels = new ArrayList<>();
    double tickS = rig.tickMillis() / 1000.0;
    for (SensorDescription sensor : rig.sensors()) {
      Channel channel = sensor.channel();
      int i = channel.ordinal();
      switch (channel.kind()) {
        case TEMPERATURE -> mostPerTick[i] = TEMPERATURE_MOST_K_PER_S * tickS;
        case PRESSURE -> mostPerTick[i] = PRESSURE_MOST_PA_PER_S * tickS;
        case FRACTION, CONTACT -> mostPerTick[i] = 0;
      }
      if (channel == Channel.SUPPLY_PRESSURE || channel == Channel.ROOM_PRESSURE) {
        mostPerTick[i] = 0;
      }
      stillMillis[i] = stillMillis(sensor, tickS);
      if (mostPerTick[i] > 0 || stillMillis[i] > 0) {
        channels.add(channel);
      }
    }
    watched = channels.toArray(new Channel[0]);
  }

  static PlausibilityRules of(RigDescription rig) {
    return new PlausibilityRules(rig);
  }

  Channel[] watched() {
    return watched;
  }

  /** How long a live sensor cannot stand still, in ms; 0 where stillness proves nothing. */
  long stillMillis(int ordinal) {
    return stillMillis[ordinal];
  }

  /** Greatest change in one tick, in the channel's SI unit; 0 where any change can be. */
  double mostPerTick(int ordinal) {
    return mostPerTick[ordinal];
  }

  /**
   * A reading in the middle of its step of width r shows the neighbour when its noise passes r/2;
   * with normal noise s that happens with p = erfc(r/(2 s √2)), so n readings all stand still with
   * (1 - p)^n.
   */
  private static long stillMillis(SensorDescription sensor, double tickS) {
    Channel.Kind kind = sensor.channel().kind();
    if (kind == Channel.Kind.CONTACT || !(sensor.noise() > 0)) {
      return 0;
    }
    double moves = tail(sensor.resolution() / (2 * sensor.noise()));
    double windowS = LOG_CHANCE / StrictMath.log1p(-StrictMath.min(moves, 0.999)) * tickS;
    if (!(windowS <= WINDOW_MOST_S)) {
      return 0;
    }
    return StrictMath.round(StrictMath.max(WINDOW_LEAST_S, windowS) * 1000);
  }

  /**
   * Chance that normal noise passes ±z: 2 Q(z), after M. Abramowitz and I. A. Stegun, Handbook of
   * Mathematical Functions, 26.2.17, error below 1e-7 (from memory).
   */
  private static double tail(double z) {
    double t = 1 / (1 + 0.2316419 * z);
    double poly =
        t
            * (0.319381530
                + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
    double density = StrictMath.exp(-z * z / 2) / StrictMath.sqrt(2 * StrictMath.PI);
    return 2 * density * poly;
  }
}
