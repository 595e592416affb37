package tarnish.shared.estimate;

/**
 * Solves linear equations with a symmetric positive definite matrix, A = L Lᵀ.
 *
 * <p>Rows are scaled to a diagonal of ones first, so that units of different size do no harm.
 */
final class Cholesky {
  /** Least pivot of the scaled matrix; below it rows are as good as dependent. */
  private static final double LEAST_PIVOT = 1e-13;

  private final double[][] lower;
  private final double[] scale;

  /**
   * Factors {@code matrix}, of which only the lower triangle is read.
   *
   * @throws IllegalArgumentException if it is not positive definite
   */
  Cholesky(double[][] matrix) {
    int n = matrix.length;
    lower = new double[n][n];
    scale = new double[n];
    for (int i = 0; i < n; i++) {
      if (!(matrix[i][i] > 0)) {
        throw singular(i);
      }
      scale[i] = 1 / StrictMath.sqrt(matrix[i][i]);
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        lower[i][j] = element(matrix, i, j);
      }
    }
  }

  private double element(double[][] matrix, int i, int j) {
    double sum = matrix[i][j] * scale[i] * scale[j];
    for (int k = 0; k < j; k++) {
      sum -= lower[i][k] * lower[j][k];
    }
    if (i != j) {
      return sum / lower[j][j];
    }
    if (!(sum > LEAST_PIVOT)) {
      throw singular(i);
    }
    return StrictMath.sqrt(sum);
  }

  private static IllegalArgumentException singular(int row) {
    return new IllegalArgumentException(
        "row "
            + (row + 1)
            + " adds nothing to the rows before it: a variance is zero or two quantities are fully"
            + " correlated");
  }

  /** The x of A x = {@code right}. */
  double[] solve(double[] right) {
    int n = lower.length;
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      double sum = right[i] * scale[i];
      for (int k = 0; k < i; k++) {
        sum -= lower[i][k] * x[k];
      }
      x[i] = sum / lower[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      double sum = x[i];
      for (int k = i + 1; k < n; k++) {
        sum -= lower[k][i] * x[k];
      }
      x[i] = sum / lower[i][i];
    }
    for (int i = 0; i < n; i++) {
      x[i] *= scale[i];
    }
    return x;
  }
}
