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
    double oxygenMol = roomK / warmingKPerMol(work);
    double gasMol = oxygenMol / StrictMath.max(0.01, work.gas.source().oxygenFraction());
    double allowedPa = gasMol * TwoZoneVolume.GAS_CONSTANT / work.volumeOverTemperature();
    return StrictMath.min(stepPa, StrictMath.max(LEAST_PA, allowedPa));
  }

  /** Adiabatic warming of the charge by a mol of O₂, of a recipe that knows its heat, in K/mol. */
  static double warmingKPerMol(TickWork work) {
    double heatJPerMol = StrictMath.abs(work.recipe().reactionEnthalpyJPerMolO2().getAsDouble());
    return StrictMath.max(1, heatJPerMol) / capacityJPerK(work);
  }

  /** Of the charge alone, as if every formula unit were one atom: the least that it can be. */
  private static double capacityJPerK(TickWork work) {
    return 3 * TwoZoneVolume.GAS_CONSTANT * work.composition.amountMol();
  }
}
