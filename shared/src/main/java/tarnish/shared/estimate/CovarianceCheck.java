package tarnish.shared.estimate;

/** Refuses what is no covariance matrix. */
final class CovarianceCheck {
  /** Rounding may carry a full correlation a little beyond 1. */
  private static final double ROUNDING = 1e-9;

  private CovarianceCheck() {}

  static void check(double[] values, double[][] covariance) {
    int n = values.length;
    if (n == 0 || covariance.length != n) {
      throw wrong(n + " values", covariance.length + " rows of covariances, one for each value");
    }
    for (int i = 0; i < n; i++) {
      if (covariance[i].length != n || !Double.isFinite(values[i])) {
        throw wrong("value " + values[i], "finite values and a square matrix");
      }
      if (!(covariance[i][i] >= 0) || Double.isInfinite(covariance[i][i])) {
        throw wrong("variance " + covariance[i][i], "a finite variance of 0 or more");
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        checkPair(covariance, i, j);
      }
    }
  }

  private static void checkPair(double[][] covariance, int i, int j) {
    double most = StrictMath.sqrt(covariance[i][i]) * StrictMath.sqrt(covariance[j][j]);
    double difference = StrictMath.abs(covariance[i][j] - covariance[j][i]);
    if (!(difference <= ROUNDING * most)) {
      throw wrong(covariance[i][j] + " and " + covariance[j][i], "a symmetric matrix");
    }
    if (!(StrictMath.abs(covariance[i][j]) <= most * (1 + ROUNDING))) {
      throw wrong("covariance " + covariance[i][j], "at most the product of uncertainties " + most);
    }
  }

  private static IllegalArgumentException wrong(String found, String expected) {
    return new IllegalArgumentException("covariances: found " + found + ", expected " + expected);
  }
}
