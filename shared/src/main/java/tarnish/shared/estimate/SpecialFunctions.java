package tarnish.shared.estimate;

/**
 * The functions behind the distributions used here: Γ, incomplete beta and incomplete gamma.
 *
 * <p>Formulas: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.5.29, 6.5.31, 26.5.8; Γ
 * by the Lanczos series with g = 7 and nine terms (coefficients from memory, checked in tests).
 */
final class SpecialFunctions {
  private static final double[] LANCZOS = {
    0.99999999999980993,
    676.5203681218851,
    -1259.1392167224028,
    771.32342877765313,
    -176.61502916214059,
    12.507343278686905,
    -0.13857109526572012,
    9.9843695780195716e-6,
    1.5056327351493116e-7
  };

  private static final int MOST_TERMS = 100_000;
  private static final double CLOSE = 1e-15;
  private static final double TINY = 1e-300;

  private SpecialFunctions() {}

  /** ln Γ(x) for x above 0. */
  static double logGamma(double x) {
    double shifted = x - 1;
    double sum = LANCZOS[0];
    for (int i = 1; i < LANCZOS.length; i++) {
      sum += LANCZOS[i] / (shifted + i);
    }
    double t = shifted + 7.5;
    return 0.5 * StrictMath.log(2 * StrictMath.PI)
        + (shifted + 0.5) * StrictMath.log(t)
        - t
        + StrictMath.log(sum);
  }

  /** Regularised incomplete beta function I_x(a, b), x from 0 to 1. */
  static double beta(double x, double a, double b) {
    if (x <= 0) {
      return 0;
    }
    if (x >= 1) {
      return 1;
    }
    double front =
        StrictMath.exp(
            logGamma(a + b)
                - logGamma(a)
                - logGamma(b)
                + a * StrictMath.log(x)
                + b * StrictMath.log1p(-x));
    // The fraction converges fast only below the mean; above it the mirror image does.
    return x < (a + 1) / (a + b + 2)
        ? front * betaFraction(x, a, b) / a
        : 1 - front * betaFraction(1 - x, b, a) / b;
  }

  /** Continued fraction 26.5.8, evaluated forwards by the modified Lentz method. */
  private static double betaFraction(double x, double a, double b) {
    double c = 1;
    double d = 1 / away(1 - (a + b) * x / (a + 1));
    double value = d;
    for (int m = 1; m <= MOST_TERMS; m++) {
      double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
      d = 1 / away(1 + even * d);
      c = away(1 + even / c);
      value *= c * d;
      double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
      d = 1 / away(1 + odd * d);
      c = away(1 + odd / c);
      value *= c * d;
      if (StrictMath.abs(c * d - 1) < CLOSE) {
        break;
      }
    }
    return value;
  }

  /** Regularised upper incomplete gamma function Q(a, x), x at least 0. */
  static double upperGamma(double a, double x) {
    if (x <= 0) {
      return 1;
    }
    double front = StrictMath.exp(a * StrictMath.log(x) - x - logGamma(a));
    return x < a + 1 ? 1 - front * lowerSeries(a, x) : front * upperFraction(a, x);
  }

  private static double lowerSeries(double a, double x) {
    double term = 1 / a;
    double sum = term;
    for (int i = 1; i <= MOST_TERMS && term > sum * CLOSE; i++) {
      term *= x / (a + i);
      sum += term;
    }
    return sum;
  }

  private static double upperFraction(double a, double x) {
    double b = x + 1 - a;
    double c = 1 / TINY;
    double d = 1 / away(b);
    double value = d;
    for (int i = 1; i <= MOST_TERMS; i++) {
      double numerator = -i * (i - a);
      b += 2;
      d = 1 / away(numerator * d + b);
      c = away(b + numerator / c);
      value *= c * d;
      if (StrictMath.abs(c * d - 1) < CLOSE) {
        break;
      }
    }
    return value;
  }

  private static double away(double x) {
    return StrictMath.abs(x) < TINY ? TINY : x;
  }
}
