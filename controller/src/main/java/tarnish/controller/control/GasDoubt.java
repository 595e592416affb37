package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * What the account of the gas falls back on when gas comes in or goes past the valves: the last
 * moment at which it was sure, and how much the solid may have taken up since.
 *
 * <p>Between nothing and the most that the gas could feed, nobody can tell: a uniform distribution,
 * whose root mean square about nothing is bound/√3 (JCGM 100:2008, 4.3.7). Nothing is booked for
 * it, so that no false uptake is.
 *
 * @param sureMol uptake at the last sure moment, in mol
 * @param sureErrors its errors
 * @param sureMolPerS uptake rate then, at least what noise may hide
 * @param surePa pressure then
 * @param holds whether gas comes or goes past the valves now
 * @param fromMol gas when that began, or when a valve last changed it
 * @param from mixture then
 * @param errorMol uncertainty of the uptake meanwhile, all doubts of the batch together
 */
record GasDoubt(
    double sureMol,
    double[] sureErrors,
    double sureMolPerS,
    double surePa,
    boolean holds,
    double fromMol,
    GasMixture from,
    double errorMol) {
  static final GasDoubt NONE =
      new GasDoubt(0, new double[GasModel.ERRORS], 0, 0, false, 0, GasMixture.UNKNOWN, 0);

  /** A new sure moment after this, in s. */
  private static final double RENEW_S = 30;

  private static final double RATE_S = 60;
  private static final double NOISE = 3;

  /** Fresh gas on a solid whose rate was measured may raise it by this: common practice. */
  private static final double FASTER = 3;

  /** Below this the rate was not measured under a pressure that says anything, in Pa. */
  private static final double EMPTY_PA = 1000;

  /** A pulse begins, or another valve opens: what came before is sure. */
  GasDoubt sure(double mol, double[] errors, double rate, double pressurePa, double stepVariance) {
    double least = NOISE * StrictMath.sqrt(stepVariance) / RATE_S;
    double atLeast = StrictMath.max(StrictMath.abs(rate), least);
    return new GasDoubt(mol, errors, atLeast, pressurePa, holds, fromMol, from, errorMol);
  }

  /** Whether it is time for a new sure moment in a vessel at rest: no gas seems to come in. */
  static boolean isSure(double ageS, double rate, double stepVariance) {
    return ageS >= RENEW_S && rate > -NOISE * StrictMath.sqrt(stepVariance) / RATE_S;
  }

  GasDoubt begun(double gasMol, GasMixture mixture) {
    return new GasDoubt(sureMol, sureErrors, sureMolPerS, surePa, true, gasMol, mixture, errorMol);
  }

  GasDoubt over() {
    return holds
        ? new GasDoubt(sureMol, sureErrors, sureMolPerS, surePa, false, 0, from, errorMol)
        : this;
  }

  /** This much more of it, which at its beginning is all the time since the sure moment. */
  GasDoubt longer(double forS, double mostMolPerS, double pressurePa, double capacityMol) {
    double most = mostMolPerS;
    if (surePa > EMPTY_PA) {
      double kinetic = FASTER * sureMolPerS * StrictMath.max(1, pressurePa / surePa);
      most = StrictMath.min(most, kinetic);
    }
    double more = most * forS / StrictMath.sqrt(3);
    double error = StrictMath.min(errorMol + more, StrictMath.max(errorMol, capacityMol));
    return new GasDoubt(sureMol, sureErrors, sureMolPerS, surePa, holds, fromMol, from, error);
  }

  /** The mixture while gas of an unknown source comes in, or some goes. */
  GasMixture mixture(double gasMol, double leastMol) {
    double in = gasMol - fromMol;
    return in < 0 ? from.thinned(fromMol, gasMol, leastMol) : from.leaked(in, in);
  }

  static String sentence(double backMol, double ageS) {
    String counted =
        "Gas comes or goes past the valves: until the trip is reset nothing is counted as uptake,"
            + " and its uncertainty grows; weigh the solid to know it again.";
    return backMol == 0
        ? counted
        : counted
            + " What was counted in the last "
            + Words.duration(ageS)
            + " is taken back: "
            + Words.amount(new Estimate(-backMol, StrictMath.abs(backMol) / 10))
            + ".";
  }
}
