package tarnish.shared.magnetism;

import tarnish.shared.estimate.Estimate;

/** Units and constants of magnetic susceptibility. Inside there is only SI; tables are cgs. */
public final class Susceptibility {
  /** m³/kg (SI) of one cm³/g (cgs): 4π × 10⁻³. */
  public static final double MASS_SI_PER_CGS = 4e-3 * StrictMath.PI;

  /** m³/mol (SI) of one cm³/mol (cgs): 4π × 10⁻⁶. */
  public static final double MOLAR_SI_PER_CGS = 4e-6 * StrictMath.PI;

  // CODATA 2018; k and N_A exact.
  private static final double BOLTZMANN = 1.380649e-23;
  private static final double AVOGADRO = 6.02214076e23;
  private static final double MAGNETIC_CONSTANT = 1.25663706212e-6;
  private static final double BOHR_MAGNETON = 9.2740100783e-24;

  /** μ²/(μ_B² χ_M T) in mol/(m³ K): 3 k / (N_A μ₀ μ_B²). */
  private static final double MOMENT_SQUARE =
      3 * BOLTZMANN / (AVOGADRO * MAGNETIC_CONSTANT * BOHR_MAGNETON * BOHR_MAGNETON);

  private Susceptibility() {}

  /**
   * Effective moment in Bohr magnetons, μ = √(3 k χ_M T/(N_A μ₀ μ_B²)); in cgs 2.82787 √(χ_M T).
   *
   * @param paramagneticM3PerMol molar susceptibility of one magnetic centre (SI), 0 or more
   */
  public static double moment(double paramagneticM3PerMol, double temperatureK) {
    if (!(paramagneticM3PerMol >= 0) || !(temperatureK > 0)) {
      throw new IllegalArgumentException(
          "a moment needs a susceptibility of at least 0 and a temperature above 0, got "
              + paramagneticM3PerMol
              + " m³/mol, "
              + temperatureK
              + " K");
    }
    return StrictMath.sqrt(MOMENT_SQUARE * paramagneticM3PerMol * temperatureK);
  }

  /** Moment of n unpaired electrons by their spins alone, √(n (n + 2)). */
  public static double spinOnly(int electrons) {
    if (electrons < 0) {
      throw new IllegalArgumentException("unpaired electrons are 0 or more, got " + electrons);
    }
    return StrictMath.sqrt(electrons * (electrons + 2.0));
  }

  /** A molar susceptibility in 10⁻⁶ cm³/mol (cgs), as tables print it. */
  public static Estimate molarCgsMillionths(Estimate m3PerMol) {
    return m3PerMol.times(1e6 / MOLAR_SI_PER_CGS);
  }

  /** A mass susceptibility in 10⁻⁶ cm³/g (cgs), as tables print it. */
  public static Estimate massCgsMillionths(Estimate m3PerKg) {
    return m3PerKg.times(1e6 / MASS_SI_PER_CGS);
  }
}
