package tarnish.shared.estimate;

import java.util.List;

/**
 * A combined standard uncertainty with its effective degrees of freedom, and the half-width of an
 * interval that has a given level of confidence (JCGM 100:2008, annex G).
 *
 * @param standardUncertainty combined, of independent contributions
 * @param degreesOfFreedom effective, by Welch and Satterthwaite; infinite if all contributions are
 * @param confidence level, in (0, 1)
 * @param coverageFactor t for that level and the degrees of freedom cut to a whole number
 */
public record ExpandedUncertainty(
    double standardUncertainty, double degreesOfFreedom, double confidence, double coverageFactor) {

  /**
   * One independent contribution |∂f/∂xᵢ| u(xᵢ), in the unit of the result.
   *
   * @param standardUncertainty at least 0
   * @param degreesOfFreedom above 0; infinite where the uncertainty itself is taken as known
   */
  public record Contribution(double standardUncertainty, double degreesOfFreedom) {
    public Contribution {
      if (!(standardUncertainty >= 0) || Double.isInfinite(standardUncertainty)) {
        throw new IllegalArgumentException(
            "a contribution must be finite and at least 0, got " + standardUncertainty);
      }
      if (!(degreesOfFreedom > 0)) {
        throw new IllegalArgumentException(
            "degrees of freedom must be above 0, got " + degreesOfFreedom);
      }
    }
  }

  /**
   * Combines contributions: u² = Σ uᵢ², ν = u⁴ / Σ (uᵢ⁴ / νᵢ) (equation G.2b). The unrounded u
   * enters: a rounded one would give too many degrees of freedom.
   */
  public static ExpandedUncertainty of(List<Contribution> contributions, double confidence) {
    double variance = 0;
    double sum = 0;
    for (Contribution each : contributions) {
      double square = each.standardUncertainty() * each.standardUncertainty();
      variance += square;
      sum += square * square / each.degreesOfFreedom();
    }
    double freedom = sum == 0 ? Double.POSITIVE_INFINITY : variance * variance / sum;
    return new ExpandedUncertainty(
        StrictMath.sqrt(variance),
        freedom,
        confidence,
        Distributions.coverageFactor(confidence, freedom));
  }

  /** Half-width of the interval, U = k u. */
  public double halfWidth() {
    return coverageFactor * standardUncertainty;
  }
}
