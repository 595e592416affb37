package tarnish.controller.control;

import tarnish.shared.oven.OvenModel;

/**
 * The four numbers of a {@link HeatBalance} as far as they are learnt: a linear fit by recursive
 * least squares. Arrays are never changed after construction.
 *
 * @param fromK temperature that all others are counted from, in K
 * @param theta tau_v tau_s in s², tau_v + tau_s in s, the share w, and c in K
 * @param covariance of these numbers
 * @param learntSumK sum of the sample's temperatures at which it was learnt, in K from {@code
 *     fromK}
 * @param equations how many it was learnt from
 * @param uncertaintyK standard uncertainty of the excess by this fit, where the sample was last
 */
record HeatFit(
    double fromK,
    double[] theta,
    double[][] covariance,
    double learntSumK,
    int equations,
    double uncertaintyK) {
  private static final int SIZE = 4;

  /** Before the first tick. */
  static final HeatFit NONE = new HeatFit(0, new double[SIZE], new double[SIZE][SIZE], 0, 0, 0);

  /**
   * Variance of one equation in K²: residuals are some 0.07 K and alike for minutes, so that each
   * counts as little as this. Found on simulated benches.
   */
  private static final double EQUATION_K2 = 0.12;

  /** Excess that a good balance may still miss, in K: found on simulated benches. */
  private static final double FLOOR_K = 0.006;

  /** Loss changes with temperature: error per kelvin from where the balance was learnt. */
  private static final double PER_KELVIN = 0.005;

  /** Lags change with temperature, relative and per kelvin, and at most. */
  private static final double LAG_ERROR = 0.02;

  private static final double LAG_ERROR_PER_KELVIN = 0.004;
  private static final double LAG_ERROR_MAX = 0.6;

  /** Temperature at which the rig's lags are taken: the balance is needed in the cold most. */
  private static final double COLD_K = 300;

  /** What is taken for true at first: the rig's oven model, or little where there is none. */
  static HeatFit begun(double sampleK, double ovenK, double roomK, Plan plan) {
    double roomAboveK = roomK - sampleK;
    double ovenAboveK = ovenK - sampleK;
    double[] theta;
    double[] spread;
    OvenModel model = plan.modelRegulator() == null ? null : plan.modelRegulator().model();
    if (model == null) {
      theta = new double[] {4e4, 450, 0.96, 0};
      spread = new double[] {4e4, 300, 0.05, 3};
    } else {
      double vesselS = model.vesselSecondsAt(COLD_K);
      double sampleS = model.sampleSecondsAt(COLD_K);
      double arrives = model.neckS() / (model.neckS() + vesselS);
      theta = new double[] {vesselS * sampleS, vesselS + sampleS, arrives, 0};
      spread = new double[] {0.2 * theta[0], 0.1 * theta[1], 0.01, 3};
    }
    theta[3] = -theta[2] * (ovenAboveK - roomAboveK) - roomAboveK;
    double[][] covariance = new double[SIZE][SIZE];
    for (int i = 0; i < SIZE; i++) {
      covariance[i][i] = spread[i] * spread[i];
    }
    return new HeatFit(sampleK, theta, covariance, 0, 0, 0);
  }

  /**
   * With one equation more.
   *
   * @param row what each number is multiplied by
   * @param excessK what the fit so far leaves over, in K
   * @param sampleAboveK sample, in K from {@code fromK}
   */
  HeatFit learnt(double[] row, double excessK, double sampleAboveK) {
    double[] spread = times(covariance, row);
    double total = EQUATION_K2 + dot(row, spread);
    double[] t = theta.clone();
    double[][] p = new double[SIZE][SIZE];
    for (int i = 0; i < SIZE; i++) {
      t[i] += spread[i] * excessK / total;
      for (int j = 0; j < SIZE; j++) {
        p[i][j] = covariance[i][j] - spread[i] * spread[j] / total;
      }
    }
    return new HeatFit(fromK, t, p, learntSumK + sampleAboveK, equations + 1, uncertaintyK);
  }

  /** The same, with the uncertainty of what it says of the sample now. */
  HeatFit judged(double[] row, double sampleAboveK) {
    double known = dot(row, times(covariance, row));
    double awayK = StrictMath.abs(sampleAboveK - learntSumK / StrictMath.max(1, equations));
    double lag = StrictMath.min(LAG_ERROR_MAX, LAG_ERROR + LAG_ERROR_PER_KELVIN * awayK);
    double moving = lag * theta[1] * row[1];
    double lost = PER_KELVIN * awayK;
    double uncertainty =
        StrictMath.sqrt(
            FLOOR_K * FLOOR_K + StrictMath.max(0, known) + moving * moving + lost * lost);
    return new HeatFit(fromK, theta, covariance, learntSumK, equations, uncertainty);
  }

  /** Both lags together, in s. */
  double lagsS() {
    return theta[1];
  }

  /** The shorter of the two lags, in s: that of the sample behind its vessel. */
  double sampleLagS() {
    double half = theta[1] / 2;
    double root = StrictMath.sqrt(StrictMath.max(0, half * half - theta[0]));
    return StrictMath.max(1, half - root);
  }

  private static double[] times(double[][] matrix, double[] vector) {
    double[] product = new double[SIZE];
    for (int i = 0; i < SIZE; i++) {
      product[i] = dot(matrix[i], vector);
    }
    return product;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < SIZE; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
