package tarnish.shared.kinetics;

import java.util.OptionalDouble;
import tarnish.shared.estimate.Distributions;

/**
 * Whether a curve describes its points: by the size of what is left over, and by its order.
 *
 * @param scatterProbability that the stated noise alone scatters the points as much; empty if no
 *     noise was stated
 * @param runsProbability that residuals without order change sign as seldom (Wald and Wolfowitz)
 */
public record Goodness(OptionalDouble scatterProbability, double runsProbability) {
  /** A good law is refused about once in a hundred by each test: common practice. */
  public static final double REFUSED_BELOW = 0.01;

  static Goodness of(
      double[] residuals, double sumOfSquares, int degreesOfFreedom, OptionalDouble noise) {
    OptionalDouble scatter = OptionalDouble.empty();
    if (noise.isPresent()) {
      double deviation = noise.getAsDouble();
      if (!(deviation > 0)) {
        throw new IllegalArgumentException(
            "the noise of a conversion must be above 0, got " + deviation);
      }
      scatter =
          OptionalDouble.of(
              Distributions.chiSquareUpper(
                  sumOfSquares / (deviation * deviation), degreesOfFreedom));
    }
    return new Goodness(scatter, runs(residuals));
  }

  /** Whether neither test refuses the law. */
  public boolean fits() {
    return runsProbability >= REFUSED_BELOW && scatterProbability.orElse(1) >= REFUSED_BELOW;
  }

  /** In words for a report. */
  public String words() {
    if (scatterProbability.orElse(1) < REFUSED_BELOW) {
      return "the points scatter more about the curve than their stated noise";
    }
    return runsProbability < REFUSED_BELOW
        ? "the points lie in long stretches on one side of the curve"
        : "the points scatter about the curve as their noise lets expect";
  }

  /**
   * Number of runs of one sign, R: mean 1 + 2ab/n, variance 2ab(2ab - n)/(n²(n - 1)), with a and b
   * residuals of each sign; normal with a half as continuity correction. Only few runs count
   * against a law: many mean that the curve goes right between the points.
   */
  private static double runs(double[] residuals) {
    double above = 0;
    double runs = 1;
    for (int i = 0; i < residuals.length; i++) {
      above += residuals[i] > 0 ? 1 : 0;
      runs += i > 0 && residuals[i] > 0 != residuals[i - 1] > 0 ? 1 : 0;
    }
    double n = residuals.length;
    double pairs = 2 * above * (n - above);
    double mean = 1 + pairs / n;
    double variance = pairs * (pairs - n) / (n * n * (n - 1));
    // All but one on one side: no number of runs would be unlikely.
    return variance > 0 ? Distributions.normal((runs + 0.5 - mean) / StrictMath.sqrt(variance)) : 1;
  }
}
