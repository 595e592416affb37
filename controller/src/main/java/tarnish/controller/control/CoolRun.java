package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/** Letting the oven cool, with the heater off or at a rate. */
record CoolRun(Step.Cool step) implements StepRun {

  @Override
  public StepRun step(TickWork work) {
    if (step.rateKPerS().isPresent()) {
      Setpoint.move(work, step.toK(), step.rateKPerS().getAsDouble());
    } else {
      work.setpointK = ControlState.HEATER_OFF;
    }
    if (work.sampleK() > step.toK()) {
      return this;
    }
    return new Done("at " + Words.temperature(work.sampleK()));
  }

  @Override
  public StepRun reentered() {
    return this;
  }

  @Override
  public String doing() {
    return "cooling to " + Words.temperature(step.toK());
  }
}
