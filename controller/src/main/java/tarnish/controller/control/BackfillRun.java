package tarnish.controller.control;

import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/**
 * Filling with a gas, pumping down before each fill.
 *
 * @param gas what to fill with
 * @param toPa pressure of each fill
 * @param down how far the pump-down before the fill has come
 * @param cyclesLeft fills still to be done
 * @param filling whether it fills or pumps
 */
record BackfillRun(Step.Gas gas, double toPa, PumpDown down, int cyclesLeft, boolean filling)
    implements StepRun {

  static BackfillRun begin(Step.Gas gas, double toPa, double evacuateToPa, int cycles) {
    return new BackfillRun(gas, toPa, PumpDown.to(evacuateToPa), cycles, false);
  }

  @Override
  public StepRun step(TickWork work) {
    return filling ? fill(work) : pump(work);
  }

  private StepRun pump(TickWork work) {
    PumpDown now = down.step(work);
    if (now.isAtLowest()) {
      now.tell(work);
    }
    if (now.isReached(0) || now.isAtLowest()) {
      return new BackfillRun(gas, toPa, now, cyclesLeft, true);
    }
    work.demand(Switch.PUMP);
    work.demand(Switch.VACUUM);
    return new BackfillRun(gas, toPa, now, cyclesLeft, false);
  }

  private StepRun fill(TickWork work) {
    if (work.pressurePa() >= toPa) {
      return cyclesLeft <= 1
          ? new Done("filled to " + Words.pressure(work.pressurePa()))
          : begin(gas, toPa, down.toPa(), cyclesLeft - 1);
    }
    work.demand(gas == Step.Gas.OXYGEN ? Switch.OXYGEN : Switch.INERT);
    return this;
  }

  @Override
  public StepRun reentered() {
    return begin(gas, toPa, down.toPa(), cyclesLeft);
  }

  @Override
  public String doing() {
    return filling
        ? "filling with " + gas.words() + " gas to " + Words.pressure(toPa)
        : "pumping down to " + Words.pressure(down.toPa()) + ", " + cyclesLeft + " fills to go";
  }
}
