package tarnish.controller.control;

/**
 * How the sample follows the oven, learned in steady heating: both move at the same rate then, and
 * the sample is behind by (oven - sample) / rate. A thermocouple that slips off the sample shows
 * another lag from then on.
 *
 * @param fromMillis beginning of the present window; -1 before the first
 * @param sampleK sample temperature then
 * @param ovenK oven temperature then
 * @param steadyBefore whether the window before was steady, too
 * @param usualS lag learned so far; 0 before the first
 * @param learned how many windows it was learned from
 * @param learnedAtK sample temperature at which it was learned last
 * @param strange windows in a row with quite another lag
 */
record SampleLag(
    long fromMillis,
    double sampleK,
    double ovenK,
    boolean steadyBefore,
    double usualS,
    int learned,
    double learnedAtK,
    int strange) {
  static final SampleLag UNKNOWN = new SampleLag(-1, 0, 0, false, 0, 0, 0, 0);

  private static final long WINDOW_MILLIS = 120_000;

  /** A window counts as steady if the oven moved by this much and the sample as much. */
  private static final double MOVED_K = 2;

  private static final double EVEN_SHARE = 0.25;

  /**
   * Quick enough to follow a reaction that warms the sample more and more as the ramp goes on; a
   * sensor slips at once.
   */
  private static final double LEARN_SHARE = 0.5;

  private static final int LEARN_FROM = 2;

  /** A lag this many times longer or shorter than usual is another thermal path. */
  private static final double OTHER = 2.5;

  /** Offsets of the two sensors must not pass for another lag, in K. */
  private static final double APART_K = 6;

  private static final int STRANGE_ENOUGH = 2;

  /**
   * Radiation shortens the lag as it gets hotter, at most as T³: over 70 K from room temperature on
   * by 1.9, still less than {@link #OTHER}. Farther apart two lags differ anyway.
   */
  private static final double COMPARABLE_K = 70;

  SampleLag restarted() {
    return new SampleLag(-1, 0, 0, false, usualS, learned, learnedAtK, strange);
  }

  SampleLag step(double newSampleK, double newOvenK, long nowMillis) {
    if (fromMillis < 0) {
      return new SampleLag(
          nowMillis, newSampleK, newOvenK, false, usualS, learned, learnedAtK, strange);
    }
    if (nowMillis - fromMillis < WINDOW_MILLIS) {
      return this;
    }
    double movedK = newSampleK - sampleK;
    double ovenMovedK = newOvenK - ovenK;
    boolean steady =
        ovenMovedK >= MOVED_K && StrictMath.abs(movedK - ovenMovedK) <= EVEN_SHARE * ovenMovedK;
    double seconds = (nowMillis - fromMillis) / 1000.0;
    double behindK = ((newOvenK - newSampleK) + (ovenK - sampleK)) / 2;
    double lagS = behindK / movedK * seconds;
    if (!steady || !steadyBefore || !(lagS > 0)) {
      return new SampleLag(
          nowMillis, newSampleK, newOvenK, steady, usualS, learned, learnedAtK, strange);
    }
    // What has looked strange once is looked at again, however hot it is by then.
    boolean comparable = strange > 0 || StrictMath.abs(newSampleK - learnedAtK) <= COMPARABLE_K;
    int known = comparable ? learned : 0;
    boolean other =
        known >= LEARN_FROM
            && (lagS > OTHER * usualS || lagS < usualS / OTHER)
            && StrictMath.abs(behindK - usualS * movedK / seconds) > APART_K;
    if (other) {
      int times = StrictMath.min(strange + 1, STRANGE_ENOUGH);
      return new SampleLag(
          nowMillis, newSampleK, newOvenK, true, usualS, learned, learnedAtK, times);
    }
    double usual = known == 0 ? lagS : usualS + LEARN_SHARE * (lagS - usualS);
    int count = StrictMath.min(known + 1, LEARN_FROM);
    return new SampleLag(nowMillis, newSampleK, newOvenK, true, usual, count, newSampleK, 0);
  }

  boolean loose() {
    return strange >= STRANGE_ENOUGH;
  }
}
