package tarnish.controller.control;

import tarnish.shared.gas.TwoZoneVolume;

/**
 * The largest pulse whose heat cannot carry the sample to its limit, even if all of its oxygen
 * reacts at once and no heat is lost.
 *
 * <pre>
 *   n_O2 |dH| = C (T_limit - margin - T)        C = 3 R per mol of atoms (Dulong and Petit)
 * </pre>
 *
 * The boat and the glass take up heat too and are left out, so the bound is on the safe side.
 */
final class HeatCap {
  private HeatCap() {}

  /** Kept clear of the limit, in K: common practice. */
  private static final double MARGIN_K = 10;

  /** A pulse is not made smaller than this, in Pa; the alarm for a missing step needs some. */
  static final double LEAST_PA = 100;

  /** The wanted step, or the largest that is allowed, in Pa. */
  static double capped(double stepPa, TickWork work) {
    if (work.recipe().reactionEnthalpyJPerMolO2().isEmpty()) {
      return stepPa;
    }
    double roomK = StrictMath.max(0, work.limits().sampleMaxK() - MARGIN_K - work.sampleK());
    double fittedMol = fittedMol(roomK, work.gas.valveFit(), work.heat.balance().sampleLagS());
    double oxygenMol = StrictMath.min(roomK / warmingKPerMol(work), fittedMol);
    double gasMol = oxygenMol / StrictMath.max(0.01, work.gas.source().oxygenFraction());
    double allowedPa = gasMol * TwoZoneVolume.GAS_CONSTANT / work.volumeOverTemperature();
    return StrictMath.min(stepPa, StrictMath.max(LEAST_PA, allowedPa));
  }

  /** Adiabatic warming of the charge by a mol of O₂, of a recipe that knows its heat, in K/mol. */
  static double warmingKPerMol(TickWork work) {
    double heatJPerMol = StrictMath.abs(work.recipe().reactionEnthalpyJPerMolO2().getAsDouble());
    return StrictMath.max(1, heatJPerMol) / capacityJPerK(work);
  }

  /** A fit of heat against gas is believed when it is this good, relative. */
  private static final double FITTED = 0.3;

  /**
   * By the heat that this batch has made with its own oxygen: n = a tau dT, where a is the oxygen
   * that goes with an excess of 1 K for 1 s and tau the lag of the sample, in which the heat of a
   * pulse is let go. Two standard uncertainties on the safe side; no bound before it is fitted.
   */
  static double fittedMol(double roomK, ValveFit fit, double lagS) {
    double least = fit.leastMolPerKelvinSecond();
    boolean known = fit.molPerKelvinSecondUncertainty() < FITTED * fit.molPerKelvinSecond();
    return known && least > 0 ? least * lagS * roomK : Double.MAX_VALUE;
  }

  /** Of the charge alone, as if every formula unit were one atom: the least that it can be. */
  private static double capacityJPerK(TickWork work) {
    return 3 * TwoZoneVolume.GAS_CONSTANT * work.composition.amountMol();
  }
}
