package tarnish.shared.oven;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;

/**
 * An oven model with where it comes from.
 *
 * @param model as fitted
 * @param standardUncertainty of each parameter, in the order of {@link OvenModel}'s components
 * @param vesselName the vessel that was in the oven
 * @param identified when
 * @param residualK root mean square of measured minus fitted temperature, the worse of oven and
 *     sample
 */
public record IdentifiedOven(
    OvenModel model,
    double[] standardUncertainty,
    String vesselName,
    LocalDate identified,
    double residualK) {

  /** Elements age: half a year on, a model is to be identified anew. Common practice. */
  public static final int OLD_AFTER_DAYS = 180;

  public IdentifiedOven {
    standardUncertainty = standardUncertainty.clone();
    if (standardUncertainty.length != OvenParameters.COUNT) {
      throw new IllegalArgumentException(
          "an oven model has "
              + OvenParameters.COUNT
              + " parameters, got "
              + standardUncertainty.length
              + " uncertainties");
    }
    if (!(residualK >= 0) || Double.isInfinite(residualK)) {
      throw new IllegalArgumentException("the residual must be at least 0 K, got " + residualK);
    }
  }

  public static IdentifiedOven of(OvenFit fit, String vesselName, LocalDate identified) {
    return new IdentifiedOven(
        fit.model(),
        fit.standardUncertainty(),
        vesselName,
        identified,
        StrictMath.max(fit.ovenRmsK(), fit.sampleRmsK()));
  }

  @Override
  public double[] standardUncertainty() {
    return standardUncertainty.clone();
  }

  public boolean isOld(LocalDate today) {
    return ChronoUnit.DAYS.between(identified, today) > OLD_AFTER_DAYS;
  }

  /** Whether it follows the oven well enough to regulate by it. */
  public boolean isGood() {
    return residualK <= OvenFit.GOOD_RMS_K;
  }

  @Override
  public boolean equals(Object o) {
    return o instanceof IdentifiedOven other
        && model.equals(other.model)
        && Arrays.equals(standardUncertainty, other.standardUncertainty)
        && vesselName.equals(other.vesselName)
        && identified.equals(other.identified)
        && residualK == other.residualK;
  }

  @Override
  public int hashCode() {
    return 31 * model.hashCode() + identified.hashCode();
  }
}
