package tarnish.controller.control;

import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.Step;

/**
 * Admitting oxygen in pulses, each after the heat of the last is over and uptake has slowed.
 *
 * @param step what the recipe asks
 * @param given pulses given
 * @param waitedS time since the last pulse ended
 * @param waitingFor why the next pulse has to wait, in words
 */
record DoseRun(Step.Dose step, int given, double waitedS, String waitingFor) implements StepRun {

  static DoseRun begin(Step.Dose step) {
    return new DoseRun(step, 0, step.waitMinS(), "");
  }

  @Override
  public StepRun step(TickWork work) {
    if (work.pulse.open()) {
      return new DoseRun(step, given, 0, "");
    }
    String wait = given == 0 ? "" : reasonToWait(work);
    double waited = waitedS + work.tickS;
    if (!wait.isEmpty()) {
      if (waited > step.waitMaxS()) {
        work.report(InterlockTable.STEP_OVERDUE, "The last pulse is not over: " + wait + ".");
      }
      return new DoseRun(step, given, waited, wait);
    }
    if (work.pressurePa() >= step.toPa()) {
      return new Done(given + " pulses, at " + Words.pressure(work.pressurePa()));
    }
    if (given >= step.pulsesMax()) {
      return new Done("all " + given + " pulses given");
    }
    double stepPa = StrictMath.min(step.pulsePa(), work.limits().pulseMaxPa());
    work.pulse = work.pulse.begin(work.pressurePa(), HeatCap.capped(stepPa, work));
    work.heat = work.heat.marked();
    return new DoseRun(step, given + 1, 0, "");
  }

  private String reasonToWait(TickWork work) {
    if (waitedS < step.waitMinS()) {
      return "shortest wait";
    }
    if (work.heat.excessK() > step.heatSettledK()) {
      return "heat not settled";
    }
    if (!work.gas.rateIsKnown()) {
      return "uptake not yet measured";
    }
    double fallPaPerS =
        work.gas.rateMolPerS() * TwoZoneVolume.GAS_CONSTANT / work.volumeOverTemperature();
    return fallPaPerS > step.uptakeSlowedPaPerS() ? "uptake not slowed" : "";
  }

  @Override
  public StepRun reentered() {
    return new DoseRun(step, given, 0, "");
  }

  @Override
  public String doing() {
    return "oxygen pulse "
        + given
        + " of at most "
        + step.pulsesMax()
        + (waitingFor.isEmpty() ? "" : ", waiting: " + waitingFor);
  }
}
