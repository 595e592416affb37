package tarnish.controller.app;

import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.sim.Truth;

/**
 * Whether a reaction really ran away in the plant, whatever control read: by what row {@code
 * runaway} says of itself, the sample ahead of the oven and climbing, or climbing too fast, and by
 * what only the plant knows, that its reaction's own power makes it climb.
 *
 * <p>The row's figures, 12 K and 0.15 K/s or 0.8 K/s over two windows of 2 s, are taken with a
 * margin: off the lead what the two thermocouples may be off, off the climb a fifth. So a trip is
 * called false where the plant missed the condition by more than the sensors explain.
 */
final class PlantRunaway {
  private static final double AHEAD_K = 12;
  private static final double AHEAD_CLIMBS_K_PER_S = 0.15;
  private static final double CLIMBS_K_PER_S = 0.8;
  private static final double CLIMB_SHARE = 0.8;

  /** Standard uncertainties that one thermocouple may be off the other. */
  private static final double COVERAGE = 2;

  private static final double WINDOW_S = 2;

  /** The row needs two windows of its own, and a thermocouple lags by seconds. */
  private static final double SEEN_WITHIN_S = 10;

  private final double sampleJPerK;
  private final double aheadK;
  private double fromS = Double.NaN;
  private double fromK;
  private double seenS = Double.NEGATIVE_INFINITY;
  private double nowS;

  /**
   * @param sampleJPerK heat capacity of the sample with its boat
   */
  PlantRunaway(RigDescription rig, double sampleJPerK) {
    this.sampleJPerK = sampleJPerK;
    double offK =
        StrictMath.hypot(
            uncertaintyK(rig, Channel.SAMPLE_TEMPERATURE),
            uncertaintyK(rig, Channel.OVEN_TEMPERATURE));
    aheadK = AHEAD_K - COVERAGE * offK;
  }

  private static double uncertaintyK(RigDescription rig, Channel channel) {
    return rig.sensor(channel).map(SensorDescription::standardUncertainty).orElse(0.0);
  }

  void step(Truth truth) {
    nowS = truth.timeS();
    if (Double.isNaN(fromS)) {
      fromS = nowS;
      fromK = truth.sampleK();
    }
    double seconds = nowS - fromS;
    if (seconds < WINDOW_S) {
      return;
    }
    double climbs = StrictMath.min((truth.sampleK() - fromK) / seconds, ownKPerS(truth));
    boolean ahead = truth.sampleK() - truth.wallK() > aheadK;
    if (climbs > CLIMB_SHARE * (ahead ? AHEAD_CLIMBS_K_PER_S : CLIMBS_K_PER_S)) {
      seenS = nowS;
    }
    fromS = nowS;
    fromK = truth.sampleK();
  }

  /** How fast the reaction alone would warm the sample. */
  private double ownKPerS(Truth truth) {
    return truth.heatRateW() / sampleJPerK;
  }

  /** Whether it runs away now, or did within the time that the row needs to see it. */
  boolean isThere() {
    return nowS - seenS <= SEEN_WITHIN_S;
  }
}
