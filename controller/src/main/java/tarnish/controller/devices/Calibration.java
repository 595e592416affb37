package tarnish.controller.devices;

import tarnish.shared.reading.Channel;

/**
 * A two-point calibration: corrected = (shown - low.shown) · gain + low.reference, in SI units.
 *
 * @param channel what was calibrated
 * @param date ISO 8601 calendar time of it
 * @param low first point
 * @param high second point, its reference above the first one's
 */
public record Calibration(Channel channel, String date, Mark low, Mark high) {
  /** A gain further from 1 is a wrong sensor or a wrong reference, not a correction. */
  private static final double GAIN_SLACK = 0.2;

  /**
   * One point.
   *
   * @param shown mean of what the sensor showed
   * @param shownStandardUncertainty of that mean
   * @param reference what is true there
   * @param referenceStandardUncertainty of that
   */
  public record Mark(
      double shown,
      double shownStandardUncertainty,
      double reference,
      double referenceStandardUncertainty) {}

  public Calibration {
    if (!(high.reference > low.reference) || !(high.shown > low.shown)) {
      throw new IllegalArgumentException(
          "The second point must lie above the first, shown and in truth.");
    }
    double gain = (high.reference - low.reference) / (high.shown - low.shown);
    if (!(gain >= 1 - GAIN_SLACK && gain <= 1 + GAIN_SLACK)) {
      throw new IllegalArgumentException(
          "These points ask for a gain of %.3f; only %.1f to %.1f is a correction: check sensor and"
                  .formatted(gain, 1 - GAIN_SLACK, 1 + GAIN_SLACK)
              + " references.");
    }
  }

  public double gain() {
    return (high.reference - low.reference) / (high.shown - low.shown);
  }

  public double correct(double value) {
    return (value - low.shown) * gain() + low.reference;
  }

  /**
   * Standard uncertainty of a corrected value from the four figures of the points, by the law of
   * propagation for uncorrelated inputs (JCGM 100:2008, 5.1.2).
   *
   * <p>With s = (value - low.shown)/(high.shown - low.shown) the corrected value is (1 - s) low + s
   * high, so each point enters by its share.
   */
  public double standardUncertainty(double value) {
    double s = (value - low.shown) / (high.shown - low.shown);
    double lowU =
        StrictMath.hypot(low.referenceStandardUncertainty, gain() * low.shownStandardUncertainty);
    double highU =
        StrictMath.hypot(high.referenceStandardUncertainty, gain() * high.shownStandardUncertainty);
    return StrictMath.hypot((1 - s) * lowU, s * highU);
  }
}
