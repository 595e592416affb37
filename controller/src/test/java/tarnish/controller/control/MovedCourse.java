package tarnish.controller.control;

import tarnish.shared.oven.OvenModel;

/** A setpoint's course that is moved tick by tick, with where it stands for a test to look at. */
final class MovedCourse {
  private final Rounding rounding;
  private Course now;
  double setpointK;
  double rampK;
  double lineK;
  double firstK;
  double secondK;
  double lagS;

  MovedCourse(OvenModel oven, RegulatorTuning tuning, double dutyMax, Course from) {
    rounding = new Rounding(oven, tuning, dutyMax);
    become(from);
  }

  private void become(Course next) {
    now = next;
    setpointK = now.setpointK();
    rampK = now.rampK();
    lineK = now.lineK();
    firstK = now.firstK();
    secondK = now.secondK();
    lagS = now.lagS();
  }

  void restart(double atK) {
    become(now.restarted(atK));
  }

  void move(double toK, double rateKPerS, double mostKPerS, double roomK, double tickS) {
    become(rounding.move(now, toK, rateKPerS, mostKPerS, roomK, tickS));
  }

  Course now() {
    return now;
  }
}
