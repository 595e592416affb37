package tarnish.controller.control;

/** Moves the setpoint at a rate; from the sample's own temperature where the heater was off. */
final class Setpoint {
  private Setpoint() {}

  /** How near a rounded setpoint must be for a ramp to be at its end, in K. */
  private static final double NEAR_K = 0.3;

  /**
   * A rounded setpoint comes up to the recipe's straight ramp again by being faster than it by 2 %
   * at most, within the limit in force for a ramp. Where it had to wait for the oven, the straight
   * ramp waited, too.
   */
  private static final double CATCH_UP = 1.02;

  /** Whether the setpoint has come to {@code toK}. */
  static boolean isAt(double toK, TickWork work) {
    return work.course == null
        ? work.setpointK == toK
        : work.course.rampK() == toK && StrictMath.abs(work.setpointK - toK) <= NEAR_K;
  }

  static void move(TickWork work, double toK, double rateKPerS) {
    if (work.setpointK == ControlState.HEATER_OFF) {
      work.setpointK = work.sampleK();
      if (work.course != null) {
        work.course = work.course.restarted(work.setpointK);
      }
    }
    if (work.course != null) {
      double mostKPerS =
          StrictMath.max(
              rateKPerS, StrictMath.min(CATCH_UP * rateKPerS, work.limits().rampMaxKPerS()));
      Rounding rounding = work.plan.modelRegulator().rounding();
      work.course = rounding.move(work.course, toK, rateKPerS, mostKPerS, work.roomK(), work.tickS);
      work.setpointK = work.course.setpointK();
      return;
    }
    double stepK = rateKPerS * work.tickS;
    double leftK = toK - work.setpointK;
    if (StrictMath.abs(leftK) <= stepK) {
      work.setpointK = toK;
    } else {
      work.setpointK += leftK > 0 ? stepK : -stepK;
    }
  }
}
