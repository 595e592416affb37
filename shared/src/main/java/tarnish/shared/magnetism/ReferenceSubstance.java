package tarnish.shared.magnetism;

import tarnish.shared.estimate.Estimate;

/**
 * A substance of known susceptibility that calibrates the balance and magnet.
 *
 * @param name as a report calls it
 * @param massSusceptibilityM3PerKg (SI) at {@code atK}
 * @param atK temperature for which it is given
 * @param weissK θ of a susceptibility that goes as 1/(T + θ)
 */
public record ReferenceSubstance(
    String name, Estimate massSusceptibilityM3PerKg, double atK, double weissK) {

  /**
   * HgCo(NCS)₄, 16.44 × 10⁻⁶ cm³/g ± 0.5 % at 20 °C (Figgis and Nyholm 1958); θ = 10 K, which makes
   * -0.05 × 10⁻⁶ cm³/g for each kelvin (from memory).
   */
  public static final ReferenceSubstance MERCURY_COBALT_THIOCYANATE =
      new ReferenceSubstance(
          "HgCo(NCS)4",
          new Estimate(16.44e-6, 0.005 * 16.44e-6).times(Susceptibility.MASS_SI_PER_CGS),
          293.15,
          10);

  public ReferenceSubstance {
    if (!(atK > 0) || !(atK + weissK > 0)) {
      throw new IllegalArgumentException(
          "a reference is given for a temperature above 0 K, got " + atK + " K, θ " + weissK);
    }
    if (massSusceptibilityM3PerKg.value() == 0) {
      throw new IllegalArgumentException("a reference must have a susceptibility other than 0");
    }
  }

  /** Mass susceptibility in m³/kg (SI) at another temperature near the given one. */
  public Estimate at(double temperatureK) {
    return massSusceptibilityM3PerKg.times(changeTo(temperatureK));
  }

  /** What the susceptibility is multiplied by at another temperature. */
  double changeTo(double temperatureK) {
    if (!(temperatureK + weissK > 0)) {
      throw new IllegalArgumentException("temperature must be above 0 K, got " + temperatureK);
    }
    return (atK + weissK) / (temperatureK + weissK);
  }
}
