package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * Uptake from the air that comes in while the vessel is open. No gauge sees it; the heat of the
 * sample does, as far as the sweep and the hands of a person leave it alone.
 *
 * @param isOpen whether the vessel may be open now
 * @param fromKs integral of the excess ({@link HeatBalance}) as it was opened, in K s
 * @param fromErrorKs what the balance's error does to it, likewise
 * @param mol booked for this opening
 * @param errorMol standard uncertainty of it
 */
record OpenVessel(boolean isOpen, double fromKs, double fromErrorKs, double mol, double errorMol) {
  static final OpenVessel SHUT = new OpenVessel(false, 0, 0, 0, 0);

  /**
   * Heat up to so many times its error counts for nothing, and from so many times on in full; in
   * between for a share that grows with it, so that the ledger never leaps.
   */
  private static final double NOISE = 1;

  private static final double CLEAR = 3;

  /**
   * The sweep cools, stirring moves the sensor, and the heat of the last minutes is still to come:
   * relative, common practice.
   */
  private static final double DISTURBED = 0.15;

  /** Whether the recipe has a person at an open vessel: asked to open it, not yet said closed. */
  static boolean isSaidOpen(TickWork work) {
    return work.question != null && work.question.purpose() == OpenQuestion.Purpose.CLOSED_AGAIN;
  }

  /**
   * After a tick.
   *
   * @param integralKs integral of the excess until now, in K s
   * @param integralErrorKs what the balance's error does to it, likewise
   * @param molPerKelvinSecond oxygen that goes with the heat
   */
  OpenVessel step(
      boolean openNow, double integralKs, double integralErrorKs, Estimate molPerKelvinSecond) {
    if (!openNow) {
      return isOpen ? SHUT : this;
    }
    if (!isOpen) {
      return new OpenVessel(true, integralKs, integralErrorKs, 0, 0);
    }
    double excessKs = StrictMath.max(0, integralKs - fromKs);
    double errorKs = integralErrorKs - fromErrorKs;
    double takenKs = excessKs * share(excessKs, errorKs);
    double takenMol = molPerKelvinSecond.value() * takenKs;
    double noiseKs = ValveFit.heatNoiseKs(errorKs);
    double ofHeatMol = molPerKelvinSecond.value() * noiseKs;
    double ofScaleMol = molPerKelvinSecond.standardUncertainty() * StrictMath.max(takenKs, noiseKs);
    double leftOutMol = molPerKelvinSecond.value() * (excessKs - takenKs) / StrictMath.sqrt(3);
    double uncertainty =
        StrictMath.hypot(
            StrictMath.hypot(ofHeatMol, ofScaleMol),
            StrictMath.hypot(leftOutMol, DISTURBED * takenMol));
    return new OpenVessel(true, fromKs, fromErrorKs, takenMol, uncertainty);
  }

  private static double share(double excessKs, double errorKs) {
    double beyondKs = excessKs - NOISE * errorKs;
    return beyondKs <= 0 ? 0 : StrictMath.min(1, beyondKs / ((CLEAR - NOISE) * errorKs));
  }

  /** Whether there is anything to tell of. */
  boolean isClear() {
    return mol > errorMol;
  }

  String sentence() {
    return "While the vessel was open the sample was warmer than the oven makes it: it took up "
        + Words.amount(new Estimate(mol, errorMol))
        + " of oxygen from the air, which no gauge saw and only a weighing tells well.";
  }
}
