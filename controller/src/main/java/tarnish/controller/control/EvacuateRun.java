package tarnish.controller.control;

import tarnish.shared.rig.Switch;

/**
 * Pumping down, and a little longer, until the pump is at its ultimate pressure: there the account
 * of the gas learns the gauge's zero.
 *
 * @param toPa wanted pressure
 * @param belowS time it has been reached, in s
 * @param moreS time pumped since then, in s
 */
record EvacuateRun(double toPa, double belowS, double moreS) implements StepRun {
  /** The gauge must agree for this long, so that one noisy reading ends nothing. */
  private static final double STEADY_S = 2;

  private static final double MORE_S = 10;

  @Override
  public StepRun step(TickWork work) {
    double steady = work.pressurePa() <= toPa ? belowS + work.tickS : 0;
    boolean reached = moreS > 0 || steady >= STEADY_S;
    double more = reached ? moreS + work.tickS : 0;
    if (more >= MORE_S) {
      return new Done("at " + Words.pressure(work.pressurePa()));
    }
    work.demand(Switch.PUMP);
    work.demand(Switch.VACUUM);
    return new EvacuateRun(toPa, steady, more);
  }

  @Override
  public StepRun reentered() {
    return new EvacuateRun(toPa, 0, 0);
  }

  @Override
  public String doing() {
    return "pumping down to " + Words.pressure(toPa);
  }
}
