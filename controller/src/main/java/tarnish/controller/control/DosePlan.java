package tarnish.controller.control;

import tarnish.shared.gas.TwoZoneVolume;

/**
 * Plans the next pulse of oxygen from what the last ones did to the sample: as large and as soon as
 * the allowed rise of its temperature lets it be.
 *
 * <pre>
 *   peak of a pulse = kept * excess when it begins + warming per pascal * pulse
 * </pre>
 *
 * <p>The warming per pascal begins with the most that it can be (all oxygen reacts at once, the
 * charge alone is warmed, no heat is lost: see {@link HeatCap}) and then follows the peaks that
 * were measured (kept: what the sample's cooling leaves of the excess until the peak, seen from how
 * it cooled after the last one): upwards at once, downwards by a tenth a pulse. The first measured
 * peak takes its place with half as much again. No pulse is planned before the peak of the last one
 * has been seen, so a plan never runs ahead of the measurement. The excess is measured from where
 * the sample stood when dosing began, so that pulses may overlap.
 *
 * @param restSampleK sample, behind its filter, when dosing began
 * @param warmingKPerPa learned so far
 * @param isFirst whether the last pulse was the first, so that nothing had been measured before it
 * @param pulsePa size of the last pulse, as the gauge saw it; 0 before the first
 * @param seenPa what the gauge has shown of it
 * @param overPa how much more than it was told the valve let in at the last pulse: it shuts at the
 *     end of a tick
 * @param mostOverPa the most that it let in too much at the pulses before, slowly forgotten
 * @param fromK excess when the last pulse began
 * @param peakK greatest excess since
 * @param peakAtS how long after the last pulse that was
 */
record DosePlan(
    double restSampleK,
    double warmingKPerPa,
    boolean isFirst,
    double pulsePa,
    double seenPa,
    double overPa,
    double mostOverPa,
    double fromK,
    double peakK,
    double peakAtS) {

  /** Share of the allowed rise that a pulse is planned to reach: the rest is for what is unseen. */
  private static final double AIM = 0.82;

  /** A pulse that could add less than this share of the allowed rise is waited with. */
  private static final double WORTHWHILE = 0.2;

  /** A pulse is at most so many times as large as the last one: the chemistry may have changed. */
  private static final double GROWTH = 1.3;

  /** The learned warming falls to no less than this share of itself at a time. */
  private static final double FORGETS = 0.9;

  /** What of the greatest surplus of a pulse is remembered from one to the next. */
  private static final double OVER_KEPT = 0.99;

  private static final double FIRST_CAUTION = 1.5;

  /** Less is not believed to be left of an excess until the next peak. */
  private static final double LEAST_KEPT = 0.5;

  /** Where no heat shows at all, in K/Pa: 1 mK a millibar. */
  private static final double LEAST_K_PER_PA = 1e-5;

  /** Fall from the peak by which it counts as passed, in K, and as a share of the pulse's rise. */
  private static final double PASSED_K = 0.05;

  private static final double PASSED_SHARE = 0.06;

  /** A pulse whose heat does not show within this time shows none, in s. */
  static final double SHOWS_WITHIN_S = 90;

  private static final double SHOWS_K = 0.15;

  /** Part of a pulse that the gauge must show as a sign of gas. */
  private static final double STEP_SHARE = 0.25;

  static DosePlan begin(TickWork work) {
    // In a batch that begins with dosing the filter has seen nothing yet.
    double restK = work.heat.sampleK() > 0 ? work.heat.sampleK() : work.sampleK();
    return new DosePlan(restK, mostWarming(work), false, 0, 0, 0, 0, 0, 0, 0);
  }

  private static double mostWarming(TickWork work) {
    if (work.recipe().reactionEnthalpyJPerMolO2().isEmpty()) {
      return 0;
    }
    double molPerPa =
        work.volumeOverTemperature()
            / TwoZoneVolume.GAS_CONSTANT
            * work.gas.source().oxygenFraction();
    return HeatCap.warmingKPerMol(work) * molPerPa;
  }

  /** How far the sample is warmer than when dosing began. */
  double excessK(TickWork work) {
    return work.heat.sampleK() > 0 ? work.heat.sampleK() - restSampleK : 0;
  }

  /** Follows the heat of the last pulse, and while it goes in, its size. */
  DosePlan watched(TickWork work, boolean goesIn, double sinceS) {
    double excessK = StrictMath.max(peakK, excessK(work));
    double newPa =
        goesIn ? StrictMath.max(seenPa, work.pressurePa() - work.pulse.fromPa()) : seenPa;
    double admittedPa = StrictMath.max(pulsePa, newPa);
    double morePa = admittedPa - pulsePa;
    return excessK > peakK || newPa > seenPa
        ? new DosePlan(
            restSampleK,
            warmingKPerPa,
            isFirst,
            admittedPa,
            newPa,
            overPa + morePa,
            mostOverPa,
            fromK,
            excessK,
            excessK > peakK ? sinceS : peakAtS)
        : this;
  }

  /** Whether the last pulse shows in the gauge or by its heat: fast uptake leaves no step. */
  boolean showsGas() {
    double signPa = StrictMath.min(HeatCap.LEAST_PA, STEP_SHARE * pulsePa);
    return seenPa >= signPa || peakK - fromK >= SHOWS_K;
  }

  /** Whether the sample has been seen to cool again after the last pulse, or not to warm at all. */
  boolean isPeakPassed(TickWork work, double sinceS) {
    double roseK = peakK - fromK;
    if (roseK < SHOWS_K) {
      return sinceS >= SHOWS_WITHIN_S;
    }
    return excessK(work) <= peakK - StrictMath.max(PASSED_K, PASSED_SHARE * roseK);
  }

  /**
   * Size of the pulse that may come now, in Pa; 0 where none is worth while yet.
   *
   * @param mostPa the largest that the recipe and the limits in force allow
   * @param sinceS time since the last pulse ended
   */
  double nextPa(TickWork work, double riseMaxK, double mostPa, double sinceS) {
    double excessK = excessK(work);
    double kept = kept(excessK, sinceS);
    double roomK = AIM * riseMaxK - kept * excessK;
    if (pulsePa == 0) {
      double firstPa = warmingKPerPa > 0 ? roomK / warmingKPerPa : HeatCap.LEAST_PA;
      return StrictMath.max(HeatCap.LEAST_PA, StrictMath.min(mostPa, firstPa));
    }
    double learned = StrictMath.max(learned(kept), LEAST_K_PER_PA);
    double largestPa = StrictMath.min(mostPa, GROWTH * pulsePa);
    double wantedPa = roomK / learned;
    double worthPa = StrictMath.min(largestPa, WORTHWHILE * riseMaxK / learned);
    double toldPa = StrictMath.min(largestPa, wantedPa - overMostPa());
    return wantedPa >= worthPa && toldPa >= HeatCap.LEAST_PA ? toldPa : 0;
  }

  /** Share of an excess that is left after the time to the peak, by the cooling since then. */
  private double kept(double excessK, double sinceS) {
    double coolingS = sinceS - peakAtS;
    if (!(coolingS > 0) || !(peakK > 0) || !(excessK > 0) || excessK >= peakK) {
      return 1;
    }
    double share = StrictMath.exp(StrictMath.log(excessK / peakK) * peakAtS / coolingS);
    return StrictMath.max(LEAST_KEPT, share);
  }

  private double overMostPa() {
    return StrictMath.max(overPa, OVER_KEPT * mostOverPa);
  }

  /** With the last pulse's peak taken in. */
  private double learned(double kept) {
    double seen = (peakK - kept * fromK) / pulsePa;
    return isFirst ? FIRST_CAUTION * seen : StrictMath.max(seen, FORGETS * warmingKPerPa);
  }

  /** A pulse begins. */
  DosePlan given(TickWork work, double stepPa, double sinceS) {
    double excessK = excessK(work);
    boolean first = pulsePa == 0;
    return new DosePlan(
        restSampleK,
        first ? warmingKPerPa : learned(kept(excessK, sinceS)),
        first,
        stepPa,
        0,
        0,
        overMostPa(),
        excessK,
        excessK,
        0);
  }
}
