package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.Step;

/**
 * Admitting oxygen in pulses: of one size, each after the heat of the last is over and uptake has
 * slowed; or planned, as large and as soon as the allowed warming lets them be ({@link DosePlan}).
 * Whoever sizes a pulse, the limit in force and {@link HeatCap} bound it.
 *
 * @param step what the recipe asks
 * @param given pulses given
 * @param waitedS time since the last pulse ended
 * @param waitingFor why the next pulse has to wait, in words
 * @param plan of the pulses; null where they are all of one size, and before the first tick
 */
record DoseRun(Step.Dose step, int given, double waitedS, String waitingFor, DosePlan plan)
    implements StepRun {

  /**
   * A pulse may still stream in, or not be seen yet, for so long after its valve was shut, in s.
   */
  private static final double STREAMS_S = 0.6;

  /** A valve that passes less than the rig file says is waited for so many times as long. */
  private static final double OPEN_LONGER = 1.5;

  /** The heat balance tells of a pulse's heat some minutes late: all but 4 % of it by then. */
  private static final double BALANCED_S = 600;

  /** Coverage of the balance's own uncertainty. */
  private static final double COVERAGE = 2;

  static DoseRun begin(Step.Dose step) {
    return new DoseRun(step, 0, step.waitMinS(), "", null);
  }

  @Override
  public StepRun step(TickWork work) {
    DosePlan now = planned(work);
    if (work.pulse.open()) {
      return new DoseRun(step, given, 0, "", now);
    }
    double waited = waitedS + work.tickS;
    double nextPa = now == null ? fixedPa(work) : plannedPa(now, work);
    String wait = given == 0 ? "" : reasonToWait(work, now, nextPa);
    if (!wait.isEmpty()) {
      if (waited > step.waitMaxS()) {
        work.report(InterlockTable.STEP_OVERDUE, "The last pulse is not over: " + wait + ".");
      }
      return new DoseRun(step, given, waited, wait, now);
    }
    if (isFull(work)) {
      return new Done(given + " pulses, at " + Words.pressure(work.pressurePa()));
    }
    if (given >= step.pulsesMax()) {
      return new Done("all " + given + " pulses given");
    }
    double stepPa = HeatCap.capped(nextPa, work);
    work.pulse =
        now == null
            ? work.pulse.begin(work.pressurePa(), stepPa)
            : work.pulse.begin(work.pressurePa(), stepPa, longestS(stepPa, work));
    work.heat = work.heat.marked();
    return new DoseRun(
        step, given + 1, 0, "", now == null ? null : now.given(work, stepPa, waitedS));
  }

  private DosePlan planned(TickWork work) {
    if (step.riseMaxK().isEmpty()) {
      return null;
    }
    return plan == null
        ? DosePlan.begin(work)
        : plan.watched(work, work.pulse.open() || waitedS < STREAMS_S, waitedS);
  }

  /** A planned pulse is cut to what is missing, so the last gap is smaller than any pulse. */
  private boolean isFull(TickWork work) {
    double shortPa = step.riseMaxK().isPresent() ? HeatCap.LEAST_PA : 0;
    return work.pressurePa() >= step.toPa() - shortPa;
  }

  /**
   * The gauge does not see what is taken up while the valve is open, so a planned pulse ends by
   * time, too; a valve that passes nothing shows neither a step nor heat.
   */
  private static double longestS(double stepPa, TickWork work) {
    return work.tickS + OPEN_LONGER * stepPa / StrictMath.max(1, Accounts.oxygenPaPerS(work));
  }

  private double fixedPa(TickWork work) {
    return StrictMath.min(step.pulsePa(), work.limits().pulseMaxPa());
  }

  private double plannedPa(DosePlan now, TickWork work) {
    double missingPa = StrictMath.max(HeatCap.LEAST_PA, step.toPa() - work.pressurePa());
    double mostPa = StrictMath.min(fixedPa(work), missingPa);
    return now.nextPa(work, step.riseMaxK().getAsDouble(), mostPa, waitedS);
  }

  private String reasonToWait(TickWork work, DosePlan now, double nextPa) {
    if (waitedS < step.waitMinS()) {
      return "shortest wait";
    }
    if (GasSigns.creepsUp(work)) {
      // The next pulse would begin anew the watch that tells whether gas comes in.
      return "pressure rises with every valve shut";
    }
    if (now == null || isFull(work)) {
      boolean warm = now != null && now.excessK(work) > step.heatSettledK();
      return warm ? "heat not settled" : notSettled(work);
    }
    if (!now.showsGas()) {
      if (waitedS >= DosePlan.SHOWS_WITHIN_S) {
        work.report(InterlockTable.NO_PRESSURE_STEP, "");
      }
      return "no sign of the last pulse yet";
    }
    if (!now.isPeakPassed(work, waitedS) && !notSettled(work).isEmpty()) {
      return "heat of the last pulse not past its peak";
    }
    if (nextPa <= 0) {
      return "too warm for the next planned pulse";
    }
    return work.gas.rateIsKnown() ? "" : "uptake not yet measured";
  }

  private String notSettled(TickWork work) {
    if (work.heat.excessK() > step.heatSettledK() && !isTheOvensHeat(work)) {
      return "heat not settled";
    }
    if (!work.gas.rateIsKnown()) {
      return "uptake not yet measured";
    }
    double fallPaPerS =
        work.gas.rateMolPerS() * TwoZoneVolume.GAS_CONSTANT / work.volumeOverTemperature();
    return fallPaPerS > step.uptakeSlowedPaPerS() ? "uptake not slowed" : "";
  }

  /**
   * A sample that was still following its oven when the pulse came rises by what the oven had in
   * store, and may stay above where it was for as long as it is kept at temperature. The heat
   * balance, learnt without oxygen, knows that: it must leave no room for heat of reaction.
   */
  private boolean isTheOvensHeat(TickWork work) {
    Estimate excess = work.heat.balance().excessK();
    return waitedS > BALANCED_S
        && work.heat.balance().isLearnt()
        && excess.value() + COVERAGE * excess.standardUncertainty() <= step.heatSettledK();
  }

  @Override
  public StepRun reentered() {
    return new DoseRun(step, given, 0, "", plan);
  }

  @Override
  public String doing() {
    return (step.riseMaxK().isPresent() ? "planned oxygen pulse " : "oxygen pulse ")
        + given
        + " of at most "
        + step.pulsesMax()
        + (waitingFor.isEmpty() ? "" : ", waiting: " + waitingFor);
  }
}
