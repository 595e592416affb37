package tarnish.shared.estimate;

import java.util.function.DoubleUnaryOperator;

/** Probabilities and quantiles of the distributions that an uncertainty statement needs. */
public final class Distributions {
  /** From here on Student's t is the normal distribution to all digits that matter. */
  private static final double NORMAL_FROM = 1e7;

  private Distributions() {}

  /** Probability that a standard normal variable is at most {@code z}. */
  public static double normal(double z) {
    number("z", z);
    double tail = SpecialFunctions.upperGamma(0.5, z * z / 2) / 2;
    return z > 0 ? 1 - tail : tail;
  }

  /** The z that a standard normal variable stays below with {@code probability}, in (0, 1). */
  public static double normalQuantile(double probability) {
    return symmetricQuantile(probability, Distributions::normal);
  }

  /**
   * Probability that Student's t is at most {@code t}: 1 - I_x(ν/2, 1/2)/2 with x = ν/(ν + t²).
   *
   * @param degreesOfFreedom ν, above 0; infinite gives the normal distribution
   */
  public static double student(double t, double degreesOfFreedom) {
    number("t", t);
    freedom(degreesOfFreedom);
    if (degreesOfFreedom >= NORMAL_FROM) {
      return normal(t);
    }
    double x = degreesOfFreedom / (degreesOfFreedom + t * t);
    double tail = SpecialFunctions.beta(x, degreesOfFreedom / 2, 0.5) / 2;
    return t > 0 ? 1 - tail : tail;
  }

  /** The t that Student's t stays below with {@code probability}, in (0, 1). */
  public static double studentQuantile(double probability, double degreesOfFreedom) {
    freedom(degreesOfFreedom);
    return symmetricQuantile(probability, t -> student(t, degreesOfFreedom));
  }

  /**
   * Coverage factor of a two-sided interval (JCGM 100:2008, G.3.4). Degrees of freedom that are not
   * whole are cut to the next lower whole number (G.4.1), which makes the interval no shorter.
   *
   * @param confidence level in (0, 1), e.g. 0.95
   * @param degreesOfFreedom at least 1, or infinite
   */
  public static double coverageFactor(double confidence, double degreesOfFreedom) {
    if (!(degreesOfFreedom >= 1)) {
      throw new IllegalArgumentException(
          "a coverage factor needs at least 1 degree of freedom, got " + degreesOfFreedom);
    }
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "a level of confidence lies between 0 and 1, got " + confidence);
    }
    return studentQuantile((1 + confidence) / 2, StrictMath.floor(degreesOfFreedom));
  }

  /** Probability that χ² with {@code degreesOfFreedom} is at least {@code chiSquare}. */
  public static double chiSquareUpper(double chiSquare, double degreesOfFreedom) {
    freedom(degreesOfFreedom);
    if (!(chiSquare >= 0)) {
      throw new IllegalArgumentException("χ² is at least 0, got " + chiSquare);
    }
    return SpecialFunctions.upperGamma(degreesOfFreedom / 2, chiSquare / 2);
  }

  private static double symmetricQuantile(double probability, DoubleUnaryOperator below) {
    if (!(probability > 0 && probability < 1)) {
      throw new IllegalArgumentException(
          "a probability for a quantile lies between 0 and 1, got " + probability);
    }
    if (probability == 0.5) {
      return 0;
    }
    double tail = StrictMath.min(probability, 1 - probability);
    double low = -1;
    while (below.applyAsDouble(low) > tail) {
      low *= 2;
    }
    double high = low == -1 ? 0 : low / 2;
    for (double middle = (low + high) / 2;
        middle != low && middle != high;
        middle = (low + high) / 2) {
      if (below.applyAsDouble(middle) < tail) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return probability < 0.5 ? high : -high;
  }

  private static void freedom(double degreesOfFreedom) {
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          "degrees of freedom must be above 0, got " + degreesOfFreedom);
    }
  }

  private static void number(String name, double value) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException(name + " is not a number");
    }
  }
}
