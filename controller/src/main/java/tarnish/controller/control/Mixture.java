package tarnish.controller.control;

import java.util.List;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.OxideMember;

/**
 * A composition between two members of the oxide series as a mixture of both.
 *
 * <pre>
 *   share of the upper one, by formula units = (o - o_lower)/(o_upper - o_lower)   (lever rule)
 * </pre>
 */
final class Mixture {
  private Mixture() {}

  static String words(Estimate perUnit, List<OxideMember> series) {
    for (int i = 1; i < series.size(); i++) {
      OxideMember lower = series.get(i - 1);
      OxideMember upper = series.get(i);
      if (perUnit.value() < upper.oxygenPerUnit() || i == series.size() - 1) {
        return between(perUnit, lower, upper);
      }
    }
    return series.get(0).formula();
  }

  private static String between(Estimate perUnit, OxideMember lower, OxideMember upper) {
    double span = upper.oxygenPerUnit() - lower.oxygenPerUnit();
    double raw = (perUnit.value() - lower.oxygenPerUnit()) / span;
    double u = perUnit.standardUncertainty() / StrictMath.abs(span);
    // A share outside 0 to 1 is an error of measurement, which the uncertainty tells.
    double share = StrictMath.max(0, StrictMath.min(1, raw));
    return Words.percent(new Estimate(share, u))
        + " of the units as "
        + upper.formula()
        + ", the rest "
        + lower.formula();
  }
}
