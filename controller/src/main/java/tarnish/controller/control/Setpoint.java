package tarnish.controller.control;

/** Moves the setpoint at a rate; from the sample's own temperature where the heater was off. */
final class Setpoint {
  private Setpoint() {}

  static void move(TickWork work, double toK, double rateKPerS) {
    if (work.setpointK == ControlState.HEATER_OFF) {
      work.setpointK = work.sampleK();
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
