package tarnish.shared.kinetics;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import tarnish.shared.estimate.Distributions;
import tarnish.shared.estimate.Estimate;

/**
 * One rate law fitted to the conversions of one soak.
 *
 * @param law the law
 * @param start whether the conversion at the start was fitted too
 * @param rate k in 1/s
 * @param startConversion α₀; exactly 0 for {@link Start#BARE}
 * @param rateStartCovariance covariance of the two, in 1/s
 * @param degreesOfFreedom points less fitted parameters
 * @param residualStandardDeviation s of the conversions about the curve
 * @param criterion Akaike's, corrected for few points; only differences mean something
 * @param goodness whether the curve describes the points
 */
public record KineticFit(
    RateLaw law,
    Start start,
    Estimate rate,
    Estimate startConversion,
    double rateStartCovariance,
    int degreesOfFreedom,
    double residualStandardDeviation,
    double criterion,
    Goodness goodness) {

  /** Fewer points decide nothing. */
  public static final int FEWEST_POINTS = 6;

  /** Conversions cannot be told apart below this: keeps the logarithm of perfect data finite. */
  private static final double LEAST_DEVIATION = 1e-12;

  /** Below this share of its largest value a determinant is rounding error. */
  private static final double DEPENDENT = 1e-12;

  /**
   * Fits a law by least squares in α.
   *
   * @param points in rising order of time, at least {@link #FEWEST_POINTS}, the last after time 0
   * @param noise standard uncertainty of one conversion as the instruments state it, if known; it
   *     judges the fit, but k's uncertainty comes from the scatter about the curve
   * @throws IllegalArgumentException if the points are too few, out of order, or do not determine
   *     the law's constants
   */
  public static KineticFit of(
      RateLaw law, List<UptakePoint> points, Start start, OptionalDouble noise) {
    return attempt(law, points, start, noise)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "the points do not determine the constants of the law '" + law.words() + "'"));
  }

  /** The same, empty where the points do not determine the constants. */
  static Optional<KineticFit> attempt(
      RateLaw law, List<UptakePoint> points, Start start, OptionalDouble noise) {
    check(points);
    LeastSquares problem = new LeastSquares(law, points, start);
    LeastSquares.Place best = problem.solve();
    int parameters = start == Start.FITTED ? 2 : 1;
    int n = points.size();
    double sum = StrictMath.max(best.sumOfSquares, n * LEAST_DEVIATION * LEAST_DEVIATION);
    double variance = sum / (n - parameters);
    double[][] covariance = covariance(best, start, variance);
    if (!(covariance[0][0] >= 0 && covariance[1][1] >= 0)
        || Double.isInfinite(covariance[0][0] + covariance[1][1])) {
      return Optional.empty();
    }
    return Optional.of(
        new KineticFit(
            law,
            start,
            new Estimate(best.rate, StrictMath.sqrt(covariance[0][0])),
            new Estimate(best.start, StrictMath.sqrt(covariance[1][1])),
            covariance[0][1],
            n - parameters,
            StrictMath.sqrt(variance),
            criterion(n, parameters, sum),
            Goodness.of(residuals(law, points, best), sum, n - parameters, noise)));
  }

  /** AICc = n ln(S/n) + 2K + 2K(K + 1)/(n - K - 1); K counts the scatter as well. */
  private static double criterion(int n, int parameters, double sumOfSquares) {
    double count = parameters + 1.0;
    return n * StrictMath.log(sumOfSquares / n)
        + 2 * count
        + 2 * count * (count + 1) / (n - count - 1);
  }

  /** s² (JᵀJ)⁻¹; not finite where the points do not tell. */
  private static double[][] covariance(LeastSquares.Place at, Start start, double variance) {
    // A start pressed against 0 by a law that cannot feel it there has no uncertainty of its own.
    if (start == Start.BARE || at.startStart == 0) {
      return new double[][] {{variance / at.rateRate, 0}, {0, 0}};
    }
    double determinant = at.rateRate * at.startStart - at.rateStart * at.rateStart;
    double scale =
        determinant > DEPENDENT * at.rateRate * at.startStart ? variance / determinant : Double.NaN;
    return new double[][] {
      {at.startStart * scale, -at.rateStart * scale}, {-at.rateStart * scale, at.rateRate * scale}
    };
  }

  private static double[] residuals(
      RateLaw law, List<UptakePoint> points, LeastSquares.Place best) {
    double before = law.integral(best.start);
    return points.stream()
        .mapToDouble(p -> p.conversion() - law.conversion(before + best.rate * p.timeS()))
        .toArray();
  }

  private static void check(List<UptakePoint> points) {
    if (points.size() < FEWEST_POINTS) {
      throw new IllegalArgumentException(
          "a rate law needs at least " + FEWEST_POINTS + " points, got " + points.size());
    }
    for (int i = 1; i < points.size(); i++) {
      if (!(points.get(i).timeS() > points.get(i - 1).timeS())) {
        throw new IllegalArgumentException(
            "points must follow each other in time, but "
                + points.get(i).timeS()
                + " s comes after "
                + points.get(i - 1).timeS()
                + " s");
      }
    }
  }

  /** The conversion after {@code timeS} of the soak. */
  public double conversionAt(double timeS) {
    return law.conversion(law.integral(startConversion.value()) + rate.value() * timeS);
  }

  /** Half-width of the interval that holds k with this level of confidence, in 1/s. */
  public double rateHalfWidth(double confidence) {
    return Distributions.coverageFactor(confidence, degreesOfFreedom) * rate.standardUncertainty();
  }
}
