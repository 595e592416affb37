package tarnish.shared.gas;

/**
 * Inert gas that collects in a vessel with one way in: the solid takes the oxygen, the rest stays
 * and blankets it.
 *
 * <p>Every mole of O₂ that comes from a source of oxygen fraction x brings (1 - x)/x of inert gas:
 * 7 % inert leave 0.0753 mol for each mol taken up.
 */
public final class InertBuildUp {
  /** Inert share of dry air by amount, N₂ and Ar (US Standard Atmosphere 1976; from memory). */
  public static final double INERT_IN_AIR = 1 - 0.20946;

  private InertBuildUp() {}

  /** Mol of inert gas that come with one mol of O₂ from a source. */
  public static double perMolOxygen(double oxygenFraction) {
    if (!(oxygenFraction > 0 && oxygenFraction <= 1)) {
      throw new IllegalArgumentException(
          "a source of oxygen has a fraction above 0 and at most 1, got " + oxygenFraction);
    }
    return (1 - oxygenFraction) / oxygenFraction;
  }

  /**
   * Inert gas in the vessel in mol.
   *
   * @param beforeMol inert gas at the start
   * @param admittedMol gas let in from the source, oxygen and inert together
   * @param oxygenFraction of the source
   * @param leakedInMol air leaked in
   */
  public static double inertMol(
      double beforeMol, double admittedMol, double oxygenFraction, double leakedInMol) {
    if (!(beforeMol >= 0) || !(admittedMol >= 0) || !(leakedInMol >= 0)) {
      throw new IllegalArgumentException(
          "amounts of gas must be at least 0 mol, got "
              + beforeMol
              + ", "
              + admittedMol
              + ", "
              + leakedInMol);
    }
    if (!(oxygenFraction >= 0 && oxygenFraction <= 1)) {
      throw new IllegalArgumentException("a fraction lies between 0 and 1, got " + oxygenFraction);
    }
    return beforeMol + admittedMol * (1 - oxygenFraction) + leakedInMol * INERT_IN_AIR;
  }

  /**
   * Inert fraction of the gas in the vessel, at most 1.
   *
   * @param inertMol inert gas in it
   * @param gasMol all gas in it, above 0
   */
  public static double fraction(double inertMol, double gasMol) {
    if (!(inertMol >= 0) || !(gasMol > 0)) {
      throw new IllegalArgumentException(
          "inert gas must be at least 0 mol and all gas above 0 mol, got "
              + inertMol
              + ", "
              + gasMol);
    }
    return StrictMath.min(1, inertMol / gasMol);
  }
}
