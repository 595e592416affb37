package tarnish.controller.control;

import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/**
 * Filling with a gas, pumping down before each fill.
 *
 * @param gas what to fill with
 * @param toPa pressure of each fill
 * @param evacuateToPa pressure before each fill
 * @param cyclesLeft fills still to be done
 * @param filling whether it fills or pumps
 */
record BackfillRun(Step.Gas gas, double toPa, double evacuateToPa, int cyclesLeft, boolean filling)
    implements StepRun {

  static BackfillRun begin(Step.Gas gas, double toPa, double evacuateToPa, int cycles) {
    return new BackfillRun(gas, toPa, evacuateToPa, cycles, false);
  }

  @Override
  public StepRun step(TickWork work) {
    return filling ? fill(work) : pump(work);
  }

  private StepRun pump(TickWork work) {
    if (work.pressurePa() <= evacuateToPa) {
      return new BackfillRun(gas, toPa, evacuateToPa, cyclesLeft, true);
    }
    work.demand(Switch.PUMP);
    work.demand(Switch.VACUUM);
    return this;
  }

  private StepRun fill(TickWork work) {
    if (work.pressurePa() >= toPa) {
      return cyclesLeft <= 1
          ? new Done("filled to " + Words.pressure(work.pressurePa()))
          : new BackfillRun(gas, toPa, evacuateToPa, cyclesLeft - 1, false);
    }
    work.demand(gas == Step.Gas.OXYGEN ? Switch.OXYGEN : Switch.INERT);
    return this;
  }

  @Override
  public StepRun reentered() {
    return new BackfillRun(gas, toPa, evacuateToPa, cyclesLeft, false);
  }

  @Override
  public String doing() {
    return filling
        ? "filling with " + gas.words() + " gas to " + Words.pressure(toPa)
        : "pumping down to " + Words.pressure(evacuateToPa) + ", " + cyclesLeft + " fills to go";
  }
}
