package tarnish.shared.estimate;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Several estimates of one quantity, joined to the best linear unbiased one, and whether they
 * agree.
 *
 * <pre>
 *   w = V⁻¹ 1 / (1ᵀ V⁻¹ 1)     x̂ = wᵀ x     u²(x̂) = 1 / (1ᵀ V⁻¹ 1)
 *   χ² = (x - x̂ 1)ᵀ V⁻¹ (x - x̂ 1), n - 1 degrees of freedom
 * </pre>
 *
 * Generalised least squares (Aitken). A weight may be negative: with a strong correlation and
 * unequal uncertainties the best estimate lies outside the two, and leans wholly on the correlation
 * being right.
 *
 * @param joined best estimate with its standard uncertainty, taken from the stated ones alone
 * @param weights one for each estimate, in order; their sum is 1
 * @param chiSquare of the disagreement
 * @param probability that estimates which agree differ at least as much as these by chance
 */
public record Witnesses(
    Estimate joined, List<Double> weights, double chiSquare, double probability) {

  /** Below this the witnesses contradict each other: common practice, 5 %. */
  public static final double AGREEMENT_FROM = 0.05;

  public Witnesses {
    weights = List.copyOf(weights);
  }

  /**
   * Joins all quantities of {@code estimates}, taken as estimates of the same thing.
   *
   * @throws IllegalArgumentException if there are fewer than two, or two are fully correlated
   */
  public static Witnesses join(JointEstimate estimates) {
    int n = estimates.size();
    if (n < 2) {
      throw new IllegalArgumentException("joining takes at least 2 estimates, got " + n);
    }
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        covariance[i][j] = estimates.covariance(i, j);
      }
    }
    Cholesky factored = new Cholesky(covariance);
    double[] ones = new double[n];
    Arrays.fill(ones, 1);
    double[] raw = factored.solve(ones);
    double total = Arrays.stream(raw).sum();
    List<Double> weights = IntStream.range(0, n).mapToObj(i -> raw[i] / total).toList();
    double value = 0;
    for (int i = 0; i < n; i++) {
      value += weights.get(i) * estimates.value(i);
    }
    double chiSquare = chiSquare(estimates, factored, value);
    return new Witnesses(
        new Estimate(value, StrictMath.sqrt(1 / total)),
        weights,
        chiSquare,
        Distributions.chiSquareUpper(chiSquare, n - 1));
  }

  /** Joins estimates whose errors are independent: weights go as 1/u². */
  public static Witnesses joinIndependent(List<Estimate> estimates) {
    return join(JointEstimate.independent(estimates));
  }

  /** Whether the estimates differ no more than their uncertainties let expect. */
  public boolean agree() {
    return probability >= AGREEMENT_FROM;
  }

  private static double chiSquare(JointEstimate estimates, Cholesky factored, double value) {
    double[] residuals = estimates.values();
    for (int i = 0; i < residuals.length; i++) {
      residuals[i] -= value;
    }
    double[] solved = factored.solve(residuals);
    double sum = 0;
    for (int i = 0; i < residuals.length; i++) {
      sum += residuals[i] * solved[i];
    }
    return StrictMath.max(0, sum);
  }
}
