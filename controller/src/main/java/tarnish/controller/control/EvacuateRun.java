package tarnish.controller.control;

import tarnish.shared.rig.Switch;

/**
 * Pumping down.
 *
 * @param toPa wanted pressure
 * @param belowS time it has been reached, in s
 */
record EvacuateRun(double toPa, double belowS) implements StepRun {
  /** The gauge must agree for this long, so that one noisy reading ends nothing. */
  private static final double STEADY_S = 2;

  @Override
  public StepRun step(TickWork work) {
    double steady = work.pressurePa() <= toPa ? belowS + work.tickS : 0;
    if (steady >= STEADY_S) {
      return new Done("at " + Words.pressure(work.pressurePa()));
    }
    work.demand(Switch.PUMP);
    work.demand(Switch.VACUUM);
    return new EvacuateRun(toPa, steady);
  }

  @Override
  public StepRun reentered() {
    return new EvacuateRun(toPa, 0);
  }

  @Override
  public String doing() {
    return "pumping down to " + Words.pressure(toPa);
  }
}
