package tarnish.sim;

/**
 * Carries the plant over one tick: the midpoint rule while everything is slow, the classic
 * fourth-order Runge-Kutta rule in as many parts as needed while it is not. Allocates nothing per
 * tick. Not thread-safe.
 *
 * <pre>
 *   midpoint:  y += h k2                          k2 = f(y + h/2 k1)
 *   classic:   y += h/6 (k1 + 2 k2 + 2 k3 + k4)   k2 = f(y + h/2 k1),
 *              k3 = f(y + h/2 k2), k4 = f(y + h k3)
 * </pre>
 */
final class Stepper {
  /** Rate times step below which the midpoint rule is good enough. */
  private static final double QUIET = 0.03;

  /** Rate times step of one part of the fourth-order rule. */
  private static final double PART = 0.3;

  private static final int PARTS_MAX = 2000;

  private final Plant plant;
  private final double[] y;
  private final double[] k1;
  private final double[] k2;
  private final double[] k3;
  private final double[] k4;
  private final double[] trial;

  Stepper(Plant plant, double[] state) {
    this.plant = plant;
    this.y = state;
    this.k1 = new double[state.length];
    this.k2 = new double[state.length];
    this.k3 = new double[state.length];
    this.k4 = new double[state.length];
    this.trial = new double[state.length];
  }

  void advance(double seconds) {
    plant.derivatives(y, k1);
    double stiffness = plant.stiffnessPerS(y, k1) * seconds;
    if (stiffness < QUIET) {
      midpoint(seconds);
    } else {
      parts(seconds, stiffness);
    }
    for (int i = Plant.OXYGEN; i <= Plant.ADSORBED; i++) {
      // Rounding only; what is not a number must show, not vanish.
      if (y[i] < 0) {
        y[i] = 0;
      }
    }
  }

  private void parts(double seconds, double stiffness) {
    double remaining = seconds;
    double perSecond = stiffness / seconds;
    for (int done = 0; remaining > 0 && done < PARTS_MAX; done++) {
      int left = (int) StrictMath.min(PARTS_MAX - done, 1 + perSecond * remaining / PART);
      double h = remaining / left;
      classic(h);
      remaining = left == 1 ? 0 : remaining - h;
      if (remaining > 0) {
        plant.derivatives(y, k1);
        perSecond = plant.stiffnessPerS(y, k1);
      }
    }
  }

  private void midpoint(double h) {
    trial(0.5 * h, k1);
    plant.derivatives(trial, k2);
    for (int i = 0; i < y.length; i++) {
      y[i] += h * k2[i];
    }
  }

  private void classic(double h) {
    trial(0.5 * h, k1);
    plant.derivatives(trial, k2);
    trial(0.5 * h, k2);
    plant.derivatives(trial, k3);
    trial(h, k3);
    plant.derivatives(trial, k4);
    double sixth = h / 6;
    for (int i = 0; i < y.length; i++) {
      y[i] += sixth * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
    }
  }

  private void trial(double h, double[] slope) {
    for (int i = 0; i < y.length; i++) {
      trial[i] = y[i] + h * slope[i];
    }
  }
}
