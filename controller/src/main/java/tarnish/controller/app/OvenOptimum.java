package tarnish.controller.app;

import tarnish.controller.control.RegulatorTuning;

/**
 * The best that the same loop can do on one oven: its tuning is searched for that oven, after the
 * fact, on the very batch it is judged by. No controller can have it; it says how much is left.
 *
 * <p>Minimised is the integrated absolute error; an overshoot or a spread beyond what is allowed, a
 * trip or a batch that does not end costs more than any error.
 */
final class OvenOptimum {
  private static final int TRIALS = 60;
  private static final double OVERSHOOT_K = 1;
  private static final double SPREAD_K = 0.3;
  private static final double PER_KELVIN = 1e5;
  private static final double FAILED = 1e9;

  private final OvenTrial trial;

  OvenOptimum(OvenTrial trial) {
    this.trial = trial;
  }

  /** Found tuning and what it gives. */
  record Best(RegulatorTuning tuning, OvenTrial.Course course) {}

  Best find() {
    RegulatorTuning usual = RegulatorTuning.USUAL;
    double[] start = {
      StrictMath.log(usual.outerCalm()),
      StrictMath.log(usual.innerCalm()),
      StrictMath.log(usual.rounding()),
      StrictMath.log(usual.cornerShare()),
      StrictMath.log(usual.landingShare())
    };
    Simplex.Point best = Simplex.least(this::cost, start, 0.5, TRIALS);
    RegulatorTuning tuning = tuning(best.at());
    return new Best(tuning, trial.byModel(tuning));
  }

  private static RegulatorTuning tuning(double[] at) {
    return new RegulatorTuning(
        StrictMath.exp(at[0]),
        StrictMath.exp(at[1]),
        StrictMath.exp(at[2]),
        StrictMath.exp(at[3]),
        StrictMath.exp(at[4]));
  }

  private double cost(double[] at) {
    OvenTrial.Course course = trial.byModel(tuning(at));
    double beyondK =
        Math.max(0, course.overshootK() - OVERSHOOT_K)
            + Math.max(0, course.soakSpreadK() - SPREAD_K);
    return course.absoluteErrorKS() + PER_KELVIN * beyondK + (course.recovered() ? 0 : FAILED);
  }
}
