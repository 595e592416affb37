package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * How much of the gas in the vessel is not oxygen. It does not react, stays behind where the oxygen
 * goes into the solid, and blankets it.
 *
 * <p>Inert gas comes with an impure source, stays from a purge, and leaks in with the air; it goes
 * with everything else through pump and vent. The gas is taken as well mixed.
 *
 * @param inertMol amount of it
 * @param sourceMol gas in the vessel that came from the oxygen source: its purity is one error
 * @param variance of everything else, in mol²
 * @param lowestMol least gas since it began to be pumped or vented, in mol: noise of the gauge goes
 *     up and down, and would thin the mixture to nothing if each fall counted
 */
record GasMixture(double inertMol, double sourceMol, double variance, double lowestMol) {
  static final GasMixture UNKNOWN = new GasMixture(-1, 0, 0);

  /** Nothing has been pumped or vented since something came in. */
  GasMixture(double inertMol, double sourceMol, double variance) {
    this(inertMol, sourceMol, variance, Double.MAX_VALUE);
  }

  /** Amount fraction of O2 in dry air (US Standard Atmosphere 1976; from memory). */
  static final double AIR_OXYGEN = 0.20946;

  /** Less gas than this is not divided by, in mol. */
  private static final double NOTHING_MOL = 1e-9;

  /** A vessel whose gas nobody knows holds air at worst: taken as half of it. */
  private static final double UNKNOWN_SHARE = 0.9;

  private static final double UNKNOWN_UNCERTAINTY = 0.1;

  /** Inert flow by the rig file's conductance is known to this, relative: common practice. */
  private static final double FLOW_UNCERTAINTY = 0.1;

  static GasMixture unknown(double gasMol) {
    double u = UNKNOWN_UNCERTAINTY * gasMol;
    return new GasMixture(UNKNOWN_SHARE * gasMol, 0, u * u);
  }

  /** Gas of one source came in and nothing went out. */
  GasMixture fed(double mol, double oxygenFraction, boolean ofOxygenSource) {
    return new GasMixture(
        inertMol + (1 - oxygenFraction) * mol,
        StrictMath.max(0, sourceMol + (ofOxygenSource ? mol : 0)),
        variance);
  }

  /** Air leaked in. */
  GasMixture leaked(double mol, double uncertaintyMol) {
    double u = (1 - AIR_OXYGEN) * uncertaintyMol;
    // Errors of the same leak add up linearly: (s + u)² from s².
    double s = StrictMath.sqrt(variance) + StrictMath.abs(u);
    return new GasMixture(inertMol + (1 - AIR_OXYGEN) * mol, sourceMol, s * s);
  }

  /**
   * Pumped or vented, everything in proportion; not below {@code leastMol}, where the gauge does
   * not tell.
   */
  GasMixture thinned(double fromMol, double toMol, double leastMol) {
    double from = StrictMath.max(StrictMath.min(fromMol, lowestMol), leastMol);
    double to = StrictMath.max(toMol, leastMol);
    double share = to / from;
    return share < 1
        ? new GasMixture(inertMol * share, sourceMol * share, variance * share * share, to)
        : this;
  }

  /** An inert sweep: {@code inMol} came in, the rest of the change went out. */
  GasMixture swept(double fromMol, double toMol, double inMol, double oxygenFraction) {
    double outMol = StrictMath.max(0, inMol - (toMol - fromMol));
    double kept = StrictMath.exp(-outMol / StrictMath.max(NOTHING_MOL, toMol));
    double old = inertMol * kept;
    double fresh = StrictMath.max(0, toMol - fromMol * kept);
    double u =
        FLOW_UNCERTAINTY * outMol * kept * (1 - inertMol / StrictMath.max(NOTHING_MOL, fromMol));
    return new GasMixture(
        old + (1 - oxygenFraction) * fresh, sourceMol * kept, variance * kept * kept + u * u);
  }

  /** Oxygen's share of the gas. */
  Estimate oxygenFraction(double gasMol, double purityUncertainty, double inertUncertainty) {
    if (!(gasMol > NOTHING_MOL)) {
      return new Estimate(0, 1);
    }
    double inert = StrictMath.max(0, StrictMath.min(1, inertMol / gasMol));
    double purity = purityUncertainty * StrictMath.min(1, sourceMol / gasMol);
    double rest = StrictMath.sqrt(variance) / gasMol;
    double gas = inert * inertUncertainty / gasMol;
    return new Estimate(
        1 - inert, StrictMath.min(1, StrictMath.sqrt(purity * purity + rest * rest + gas * gas)));
  }
}
