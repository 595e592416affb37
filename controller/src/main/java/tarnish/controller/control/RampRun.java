package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/** Moving the setpoint to a temperature and waiting until the sample is there. */
record RampRun(Step.Ramp step) implements StepRun {
  /** How near the sample must be for the ramp to be over, in K. */
  private static final double NEAR_K = 3;

  @Override
  public StepRun step(TickWork work) {
    Setpoint.move(work, step.toK(), step.rateKPerS());
    boolean there =
        Setpoint.isAt(step.toK(), work) && StrictMath.abs(work.sampleK() - step.toK()) <= NEAR_K;
    return there ? new Done("at " + Words.temperature(work.sampleK())) : this;
  }

  @Override
  public StepRun reentered() {
    return this;
  }

  @Override
  public String doing() {
    return "ramping to "
        + Words.temperature(step.toK())
        + " at "
        + Words.temperatureRate(step.rateKPerS());
  }
}
