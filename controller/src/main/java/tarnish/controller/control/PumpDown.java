package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * How far a pump-down has come, as far as the gauge can tell it.
 *
 * <p>A gauge whose zero reads too high by no more than its stated uncertainty may never show a
 * pressure near the pump's ultimate. So a vessel counts as evacuated, too, where the pressure falls
 * no further and what the gauge shows is the pump's ultimate pressure within that uncertainty. What
 * a small leak would add there is the business of the leak test, which is finer by far.
 *
 * @param toPa wanted pressure
 * @param reachedS time for which the wanted pressure has been shown, in s
 * @param windowS time since the present window began, in s
 * @param sumPa sum of the pressures shown in it
 * @param samples how many they are
 * @param beforePa mean of the window before; infinite where there was none
 * @param lowestPa mean shown at rest at the pump's ultimate pressure; minus infinite before
 */
record PumpDown(
    double toPa,
    double reachedS,
    double windowS,
    double sumPa,
    int samples,
    double beforePa,
    double lowestPa) {
  private static final double WINDOW_S = 60;

  /** A mean that falls by less from window to window is at rest, in Pa, with the noise of both. */
  private static final double REST_PA = 5;

  private static final double NOISE = 3;

  /** Coverage of what the gauge's zero may explain: 99.7 % of gauges. */
  private static final double COVERAGE = 3;

  /** A mean below nothing is possible where the zero is low, so "not yet" is lower still. */
  private static final double NOT_YET = Double.NEGATIVE_INFINITY;

  static PumpDown to(double toPa) {
    return new PumpDown(toPa, 0, 0, 0, 0, Double.POSITIVE_INFINITY, NOT_YET);
  }

  /** After a tick in which it was pumped. */
  PumpDown step(TickWork work) {
    Estimate zero = work.gas.zeroPa();
    double shownPa = work.pressurePa() - zero.value();
    double reached = shownPa <= toPa ? reachedS + work.tickS : 0;
    double inWindowS = windowS + work.tickS;
    double sum = sumPa + shownPa;
    int count = samples + 1;
    if (inWindowS < WINDOW_S) {
      return new PumpDown(toPa, reached, inWindowS, sum, count, beforePa, lowestPa);
    }
    double meanPa = sum / count;
    double noisePa = NOISE * work.plan.gaugeNoisePa() * StrictMath.sqrt(2.0 / count);
    boolean rests = beforePa - meanPa < REST_PA + noisePa;
    boolean lowest = rests && meanPa <= mostAtUltimatePa(zero.standardUncertainty(), work);
    return new PumpDown(toPa, reached, 0, 0, 0, meanPa, lowest ? meanPa : NOT_YET);
  }

  /** The most that the gauge may show when the pump is at its ultimate pressure. */
  private static double mostAtUltimatePa(double zeroUncertaintyPa, TickWork work) {
    double ultimatePa = work.plan.rig().pumpUltimatePa();
    double ultimateUncertaintyPa = GasAccount.ULTIMATE_UNCERTAINTY * ultimatePa;
    return ultimatePa + COVERAGE * StrictMath.hypot(zeroUncertaintyPa, ultimateUncertaintyPa);
  }

  /** Whether the wanted pressure has been shown for so long. */
  boolean isReached(double steadyS) {
    return reachedS >= steadyS && reachedS > 0;
  }

  /** Whether the pump is at its lowest, although the gauge shows more than was wanted. */
  boolean isAtLowest() {
    return reachedS == 0 && lowestPa != NOT_YET;
  }

  /** Tells whoever looks that the gauge, not the pump, stands in the way. */
  void tell(TickWork work) {
    work.event(
        new Event.Advisory(
            "The gauge stands still at "
                + Words.pressure(work.pressurePa())
                + " instead of "
                + Words.pressure(toPa)
                + ": that is the pump's ultimate pressure within the gauge's stated zero error, and"
                + " counts as evacuated. Zero the gauge before the next batch; if its zero is good,"
                + " look at the pump."));
  }
}
