package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/**
 * Holding a temperature until enough time was really spent at it. Every way back to the soak (a
 * pause, a hold) ramps at the recipe's rate, and only time inside the band counts.
 *
 * @param step what the recipe asks
 * @param rateKPerS rate at which to come back to the soak
 * @param inBandS time earned, in s
 */
record SoakRun(Step.Soak step, double rateKPerS, double inBandS) implements StepRun {

  @Override
  public StepRun step(TickWork work) {
    Setpoint.move(work, step.atK(), rateKPerS);
    boolean inBand = StrictMath.abs(work.sampleK() - step.atK()) <= step.bandK();
    double earned = inBand ? inBandS + work.tickS : inBandS;
    if (earned >= step.durationS()) {
      work.event(new Event.SoakEarned(step.atK(), earned));
      return new Done("earned");
    }
    return inBand ? new SoakRun(step, rateKPerS, earned) : this;
  }

  @Override
  public StepRun reentered() {
    return this;
  }

  @Override
  public String doing() {
    return "soaking at "
        + Words.temperature(step.atK())
        + ": "
        + Words.durationSoFar(inBandS)
        + " of "
        + Words.duration(step.durationS())
        + " at temperature";
  }
}
