package tarnish.controller.control;

/**
 * The setpoint on its way, rounded off so that an oven of finite power can follow it exactly.
 *
 * <p>A straight ramp at the recipe's rate, which closes in on its end exponentially, goes through
 * three equal lags; what comes out is the setpoint in force. The lags' response is never negative,
 * so the setpoint neither overshoots nor moves faster than the recipe says, and its derivatives are
 * known without differentiating anything. {@link Rounding} moves it.
 *
 * <pre>
 *   x1' = (s - x1)/lag, x2' = (x1 - x2)/lag, r' = (x2 - r)/lag
 * </pre>
 *
 * @param setpointK where the setpoint stands, in K
 * @param rampK where the ramp stands, in K
 * @param lineK the recipe's own straight ramp, which the rounded one falls behind and comes up to
 *     again, in K
 * @param firstK the ramp behind one lag, in K
 * @param secondK the ramp behind two lags, in K; behind three it is the setpoint
 * @param lagS each of those lags, in s; 0 while the setpoint rests
 * @param rampRateKPerS how fast the ramp moves in this tick, in K/s
 * @param progress how fast time passes for the setpoint, 0 to 1
 */
record Course(
    double setpointK,
    double rampK,
    double lineK,
    double firstK,
    double secondK,
    double lagS,
    double rampRateKPerS,
    double progress) {
  static final Course NONE = new Course(0, 0, 0, 0, 0, 0, 0, 1);

  /** At rest at a temperature. */
  Course restarted(double atK) {
    return new Course(atK, atK, atK, atK, atK, 0, 0, progress);
  }

  /** As the next tick finds it: its ramp stands until it is moved again. */
  Course leftWith(double nextProgress) {
    return rampRateKPerS == 0 && nextProgress == progress
        ? this
        : new Course(setpointK, rampK, lineK, firstK, secondK, lagS, 0, nextProgress);
  }

  /** Most of a batch is a soak in which the setpoint stands where it is to be. */
  boolean restsAt(double toK) {
    return lagS == 0
        && rampK == toK
        && lineK == toK
        && firstK == toK
        && secondK == toK
        && setpointK == toK;
  }

  /** Rate of the setpoint, in K/s. */
  double rateKPerS() {
    return lagS == 0 ? 0 : progress * (secondK - setpointK) / lagS;
  }

  /** Second derivative of the setpoint. */
  double secondDerivative() {
    return lagS == 0 ? 0 : progress * progress * (firstK - 2 * secondK + setpointK) / (lagS * lagS);
  }

  /** Third derivative of the setpoint. */
  double thirdDerivative() {
    double scale = lagS == 0 ? 0 : progress / lagS;
    return scale * scale * scale * (rampK - 3 * firstK + 3 * secondK - setpointK);
  }

  /** Fourth derivative of the setpoint. */
  double fourthDerivative() {
    double scale = lagS == 0 ? 0 : progress / lagS;
    double slope = rampRateKPerS * lagS - 3 * (rampK - firstK) + 3 * (firstK - secondK);
    return scale * scale * scale * scale * (slope - (secondK - setpointK));
  }
}
