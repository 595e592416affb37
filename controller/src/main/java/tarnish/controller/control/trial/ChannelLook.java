package tarnish.controller.control.trial;

/**
 * What one sensor said during a look; sums only. Immutable. Values are taken relative to the first
 * good one, times to the begin of the look.
 *
 * @param ticks of the look
 * @param good ticks with a good value
 */
public record ChannelLook(
    int ticks,
    int good,
    double first,
    double last,
    double sum,
    double squaredSteps,
    double sumS,
    double sumSquaredS,
    double sumProduct) {
  public static final ChannelLook NONE = new ChannelLook(0, 0, 0, 0, 0, 0, 0, 0, 0);

  public ChannelLook missed() {
    return new ChannelLook(
        ticks + 1, good, first, last, sum, squaredSteps, sumS, sumSquaredS, sumProduct);
  }

  public ChannelLook saw(double value, double atS) {
    double origin = good == 0 ? value : first;
    double step = good == 0 ? 0 : value - last;
    double x = value - origin;
    return new ChannelLook(
        ticks + 1,
        good + 1,
        origin,
        value,
        sum + x,
        squaredSteps + step * step,
        sumS + atS,
        sumSquaredS + atS * atS,
        sumProduct + x * atS);
  }

  /** Whether there were values enough to judge by. */
  public boolean isSteady() {
    return good >= 3 && good == ticks;
  }

  public double mean() {
    return good == 0 ? Double.NaN : first + sum / good;
  }

  /**
   * Standard deviation of one value. Taken from the differences of neighbours, which a slow drift
   * hardly touches: s² = Σ(x[i+1] - x[i])² / (2 (n - 1)) (von Neumann 1941).
   */
  public double noise() {
    return good < 2 ? Double.NaN : StrictMath.sqrt(squaredSteps / (2 * (good - 1)));
  }

  /** Slope of the straight line of least squares, in SI units per s. */
  public double slopePerS() {
    double spread = good * sumSquaredS - sumS * sumS;
    return spread > 0 ? (good * sumProduct - sumS * sum) / spread : 0;
  }

  /**
   * Standard deviation that the noise alone gives to the slope: s / sqrt(Σ(t - mean t)²).
   *
   * @param singleValue standard deviation of one value
   */
  double slopeNoisePerS(double singleValue) {
    double spread = good == 0 ? 0 : sumSquaredS - sumS * sumS / good;
    return spread > 0 ? singleValue / StrictMath.sqrt(spread) : Double.POSITIVE_INFINITY;
  }
}
