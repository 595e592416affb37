package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/**
 * Tops up oxygen in small pulses to keep a pressure, but never into a sample that runs ahead of the
 * oven.
 */
final class PressureKeeper {
  private PressureKeeper() {}

  /** Share of the wanted pressure that may be missing before it is topped up. */
  private static final double DEADBAND = 0.015;

  /** Below this share of the wanted pressure something is wrong with the supply or the vessel. */
  private static final double LOW_SHARE = 0.8;

  /**
   * Sample running ahead of the hotter of oven and setpoint by more than this gets no oxygen, in K.
   */
  private static final double AHEAD_MAX_K = 5;

  /**
   * One tick.
   *
   * @param holdPa pressure to keep, meant at the step's own temperature
   * @param step that asks for it
   */
  static void step(double holdPa, Step step, TickWork work) {
    if (!work.pulse.mayTopUp()) {
      return;
    }
    double wantedPa = holdPa * shareUntilHot(step, work);
    double missingPa = wantedPa - work.pressurePa();
    if (missingPa < DEADBAND * wantedPa || ahead(work) > AHEAD_MAX_K) {
      return;
    }
    double stepPa = StrictMath.min(missingPa, work.limits().pulseMaxPa());
    work.pulse = work.pulse.begin(work.pressurePa(), HeatCap.capped(stepPa, work));
    work.heat = work.heat.marked();
  }

  /** Whether the pressure stays well below what the step keeps at the temperature of now. */
  static boolean isFarBelow(TickWork work) {
    Instruction.Do doing = work.doing();
    if (doing == null || doing.step().common().holdPressurePa().isEmpty() || !work.believable()) {
      return false;
    }
    double holdPa = doing.step().common().holdPressurePa().getAsDouble();
    return work.pressurePa() < LOW_SHARE * (holdPa * shareUntilHot(doing.step(), work));
  }

  /**
   * A vessel that is still to be heated gets no more gas than the step's temperature needs: topped
   * up to the full pressure when cold it would burst through its limit on the way.
   */
  private static double shareUntilHot(Step step, TickWork work) {
    double goalK =
        step instanceof Step.Ramp ramp
            ? ramp.toK()
            : step instanceof Step.Soak soak ? soak.atK() : ControlState.HEATER_OFF;
    if (goalK <= work.sampleK()) {
      return 1;
    }
    double atGoal = work.gas.model().volume().volumeOverTemperature(goalK, work.roomK());
    return atGoal / work.volumeOverTemperature();
  }

  private static double ahead(TickWork work) {
    return work.heat.sampleK() - StrictMath.max(work.heat.ovenK(), work.setpointK);
  }
}
