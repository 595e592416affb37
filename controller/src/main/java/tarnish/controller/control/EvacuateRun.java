package tarnish.controller.control;

import tarnish.shared.rig.Switch;

/**
 * Pumping down, and a little longer, until the pump is at its ultimate pressure: there the account
 * of the gas learns the gauge's zero.
 *
 * @param down how far it has come
 * @param moreS time pumped since the wanted pressure was reached, in s
 */
record EvacuateRun(PumpDown down, double moreS) implements StepRun {
  /** The gauge must agree for this long, so that one noisy reading ends nothing. */
  private static final double STEADY_S = 2;

  private static final double MORE_S = 10;

  static EvacuateRun begin(double toPa) {
    return new EvacuateRun(PumpDown.to(toPa), 0);
  }

  @Override
  public StepRun step(TickWork work) {
    PumpDown now = down.step(work);
    boolean reached = moreS > 0 || now.isReached(STEADY_S);
    double more = reached ? moreS + work.tickS : 0;
    if (more >= MORE_S) {
      return new Done("at " + Words.pressure(work.pressurePa()));
    }
    if (now.isAtLowest()) {
      now.tell(work);
      return new Done("at the pump's lowest, shown as " + Words.pressure(work.pressurePa()));
    }
    work.demand(Switch.PUMP);
    work.demand(Switch.VACUUM);
    return new EvacuateRun(now, more);
  }

  @Override
  public StepRun reentered() {
    return begin(down.toPa());
  }

  @Override
  public String doing() {
    return "pumping down to " + Words.pressure(down.toPa());
  }
}
