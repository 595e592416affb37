package tarnish.shared.kinetics;

import java.util.List;
import tarnish.shared.gas.TwoZoneVolume;

/**
 * Time at one temperature that does as much as time at others.
 *
 * <pre>t_ref = Σ tᵢ exp(-(Ea/R) (1/Tᵢ - 1/T_ref))</pre>
 *
 * It holds for one rate law with one activation energy throughout.
 */
public final class EquivalentTime {
  /** Time spent at a temperature, in s and K. */
  public record Span(double timeS, double temperatureK) {
    public Span {
      if (!(timeS >= 0) || !(temperatureK > 0)) {
        throw new IllegalArgumentException(
            "a span is at least 0 s long and above 0 K, got "
                + timeS
                + " s, "
                + temperatureK
                + " K");
      }
    }
  }

  private EquivalentTime() {}

  /**
   * Seconds at {@code referenceK} that do as much as all spans.
   *
   * @param activationEnergyJPerMol Ea, at least 0
   */
  public static double seconds(
      List<Span> spans, double referenceK, double activationEnergyJPerMol) {
    if (!(referenceK > 0) || !(activationEnergyJPerMol >= 0)) {
      throw new IllegalArgumentException(
          "the reference must be above 0 K and the activation energy at least 0 J/mol, got "
              + referenceK
              + " K, "
              + activationEnergyJPerMol
              + " J/mol");
    }
    double sum = 0;
    for (Span span : spans) {
      double exponent =
          activationEnergyJPerMol
              / TwoZoneVolume.GAS_CONSTANT
              * (1 / span.temperatureK() - 1 / referenceK);
      sum += span.timeS() * StrictMath.exp(-exponent);
    }
    return sum;
  }
}
