package tarnish.shared.gas;

import tarnish.shared.estimate.Estimate;

/**
 * A leak test by the rise of pressure in a shut vessel.
 *
 * <pre>Q = V dp/dt   (Pa m³/s)       ṅ = Q/(R T)</pre>
 *
 * Each pressure is brought to the mean temperature first, p T̄/T: 1 K at 300 K moves it by 0.33 %.
 * A leak gives a straight line, outgassing a curve that levels off, so the slopes of both halves
 * are kept apart.
 *
 * @param whole slope over all points in Pa/s
 * @param firstHalf slope of the first half
 * @param secondHalf slope of the second half
 * @param meanTemperatureK of the gas
 */
public record RateOfRise(
    Estimate whole, Estimate firstHalf, Estimate secondHalf, double meanTemperatureK) {

  /** What a rise looks like. */
  public enum Signature {
    /** No rise that stands out of the noise. */
    NONE,
    /**
     * As fast in the second half as in the first: a leak, or a large surface that goes on gassing.
     */
    STRAIGHT,
    /** Slower in the second half: outgassing for the greater part. */
    LEVELLING
  }

  private static final int FEWEST_POINTS = 6;

  /** Differences beyond twice their standard uncertainty stand out: common practice. */
  private static final double STANDS_OUT = 2;

  /**
   * Evaluates readings taken at the same moments.
   *
   * @throws IllegalArgumentException if there are fewer than six, or their numbers differ
   */
  public static RateOfRise of(double[] timesS, double[] pressuresPa, double[] temperaturesK) {
    int n = timesS.length;
    if (n < FEWEST_POINTS || pressuresPa.length != n || temperaturesK.length != n) {
      throw new IllegalArgumentException(
          "a rate of rise needs at least %d times with a pressure and a temperature each, got %d, %d, %d"
              .formatted(FEWEST_POINTS, n, pressuresPa.length, temperaturesK.length));
    }
    double meanK = 0;
    for (double temperatureK : temperaturesK) {
      if (!(temperatureK > 0)) {
        throw new IllegalArgumentException("temperature must be above 0 K, got " + temperatureK);
      }
      meanK += temperatureK / n;
    }
    double[] steady = new double[n];
    for (int i = 0; i < n; i++) {
      steady[i] = pressuresPa[i] * meanK / temperaturesK[i];
    }
    return new RateOfRise(
        slope(timesS, steady, 0, n),
        slope(timesS, steady, 0, n / 2),
        slope(timesS, steady, n / 2, n),
        meanK);
  }

  private static Estimate slope(double[] x, double[] y, int from, int to) {
    int n = to - from;
    double meanX = 0;
    double meanY = 0;
    for (int i = from; i < to; i++) {
      meanX += x[i] / n;
      meanY += y[i] / n;
    }
    double xx = 0;
    double xy = 0;
    for (int i = from; i < to; i++) {
      xx += (x[i] - meanX) * (x[i] - meanX);
      xy += (x[i] - meanX) * (y[i] - meanY);
    }
    if (!(xx > 0)) {
      throw new IllegalArgumentException("all times of a half are the same");
    }
    double slope = xy / xx;
    double squares = 0;
    for (int i = from; i < to; i++) {
      double residual = y[i] - meanY - slope * (x[i] - meanX);
      squares += residual * residual;
    }
    return new Estimate(slope, StrictMath.sqrt(squares / (n - 2) / xx));
  }

  public Signature signature() {
    if (!(whole.value() > STANDS_OUT * whole.standardUncertainty())) {
      return Signature.NONE;
    }
    double slowing = firstHalf.value() - secondHalf.value();
    double uncertainty =
        StrictMath.hypot(firstHalf.standardUncertainty(), secondHalf.standardUncertainty());
    return slowing > STANDS_OUT * uncertainty ? Signature.LEVELLING : Signature.STRAIGHT;
  }

  /** Throughput in Pa m³/s, from the second half, where outgassing hides the leak least. */
  public Estimate throughput(Estimate volumeM3) {
    double slope = secondHalf.value();
    return new Estimate(
        volumeM3.value() * slope,
        StrictMath.hypot(
            volumeM3.value() * secondHalf.standardUncertainty(),
            slope * volumeM3.standardUncertainty()));
  }

  /** The same in mol/s. */
  public Estimate molPerS(Estimate volumeM3) {
    return throughput(volumeM3).times(1 / (TwoZoneVolume.GAS_CONSTANT * meanTemperatureK));
  }
}
