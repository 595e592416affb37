package tarnish.shared.estimate;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Several quantities with their covariances (JCGM 100:2008, 5.2; JCGM 102:2011).
 *
 * <p>Covariances carry what two quantities owe to the same gauge, volume or weight; leaving them
 * out makes an uncertainty too small or too large.
 */
public final class JointEstimate {
  private final double[] values;
  private final double[][] covariance;

  private JointEstimate(double[] values, double[][] covariance) {
    this.values = values;
    this.covariance = covariance;
  }

  /**
   * Values with their covariance matrix.
   *
   * @throws IllegalArgumentException if the matrix is not square, symmetric, finite and of
   *     variances that are not negative, or a correlation lies outside -1 to 1
   */
  public static JointEstimate of(double[] values, double[][] covariance) {
    CovarianceCheck.check(values, covariance);
    double[][] copy = new double[values.length][];
    Arrays.setAll(copy, i -> covariance[i].clone());
    return new JointEstimate(values.clone(), copy);
  }

  /** Quantities whose errors have nothing in common. */
  public static JointEstimate independent(List<Estimate> estimates) {
    int n = estimates.size();
    double[] values = new double[n];
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n; i++) {
      values[i] = estimates.get(i).value();
      covariance[i][i] = square(estimates.get(i).standardUncertainty());
    }
    return of(values, covariance);
  }

  /** Estimates with their correlation coefficients: cov(i, j) = r(i, j) u(i) u(j). */
  public static JointEstimate correlated(List<Estimate> estimates, double[][] correlation) {
    int n = estimates.size();
    double[] values = new double[n];
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n; i++) {
      values[i] = estimates.get(i).value();
      for (int j = 0; j < n; j++) {
        covariance[i][j] =
            correlation[i][j]
                * estimates.get(i).standardUncertainty()
                * estimates.get(j).standardUncertainty();
      }
    }
    return of(values, covariance);
  }

  /**
   * Means of quantities observed together, with the covariances of the means (JCGM 100:2008, 4.2.3
   * and 5.2.3): s(q̄, r̄) = Σ (qₖ - q̄)(rₖ - r̄) / (n (n - 1)).
   *
   * @param observations one row for each quantity, the same number of columns in each, at least 2
   */
  public static JointEstimate ofMeans(double[][] observations) {
    int count = observations[0].length;
    if (count < 2) {
      throw new IllegalArgumentException("a scatter needs at least 2 observations, got " + count);
    }
    int n = observations.length;
    double[] means = new double[n];
    Arrays.setAll(means, i -> Arrays.stream(observations[i]).sum() / count);
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double sum = 0;
        for (int k = 0; k < count; k++) {
          sum += (observations[i][k] - means[i]) * (observations[j][k] - means[j]);
        }
        covariance[i][j] = sum / count / (count - 1);
      }
    }
    return of(means, covariance);
  }

  public int size() {
    return values.length;
  }

  public double value(int i) {
    return values[i];
  }

  /** All values, a copy. */
  public double[] values() {
    return values.clone();
  }

  public double covariance(int i, int j) {
    return covariance[i][j];
  }

  /** Correlation coefficient; 0 where one of the two has no uncertainty. */
  public double correlation(int i, int j) {
    double product = StrictMath.sqrt(covariance[i][i]) * StrictMath.sqrt(covariance[j][j]);
    return product == 0 ? 0 : covariance[i][j] / product;
  }

  /** One of the quantities by itself. */
  public Estimate at(int i) {
    return new Estimate(values[i], StrictMath.sqrt(covariance[i][i]));
  }

  /**
   * Standard uncertainty of a result with these sensitivities ∂f/∂xᵢ: u² = Σᵢ Σⱼ cᵢ cⱼ cov(i, j)
   * (JCGM 100:2008, equation 13).
   */
  public double standardUncertainty(double[] sensitivities) {
    return StrictMath.sqrt(StrictMath.max(0, covariance(sensitivities, sensitivities)));
  }

  /** Covariance of two results with these sensitivities (JCGM 100:2008, equation H.9). */
  public double covariance(double[] first, double[] second) {
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      for (int j = 0; j < values.length; j++) {
        sum += first[i] * second[j] * covariance[i][j];
      }
    }
    return sum;
  }

  /**
   * What follows from these quantities. Sensitivities are taken over the width of each uncertainty,
   * (f(x + u) - f(x - u)) / 2u (JCGM 100:2008, 5.1.3, note 2), so a bend within it is averaged.
   */
  public JointEstimate propagate(List<ToDoubleFunction<double[]>> functions) {
    int n = functions.size();
    double[] results = new double[n];
    double[][] sensitivities = new double[n][];
    for (int i = 0; i < n; i++) {
      results[i] = functions.get(i).applyAsDouble(values.clone());
      sensitivities[i] = sensitivities(functions.get(i));
    }
    double[][] joint = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        joint[i][j] = covariance(sensitivities[i], sensitivities[j]);
        joint[j][i] = joint[i][j];
      }
    }
    return of(results, joint);
  }

  /** One quantity that follows from these. */
  public Estimate propagate(ToDoubleFunction<double[]> function) {
    return new Estimate(
        function.applyAsDouble(values.clone()), standardUncertainty(sensitivities(function)));
  }

  private double[] sensitivities(ToDoubleFunction<double[]> function) {
    double[] sensitivities = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      double width = StrictMath.sqrt(covariance[i][i]);
      if (width > 0) {
        double[] at = values.clone();
        at[i] = values[i] + width;
        double above = function.applyAsDouble(at);
        at[i] = values[i] - width;
        sensitivities[i] = (above - function.applyAsDouble(at)) / (2 * width);
      }
    }
    return sensitivities;
  }

  private static double square(double x) {
    return x * x;
  }
}
