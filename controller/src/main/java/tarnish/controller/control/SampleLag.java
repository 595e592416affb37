package tarnish.controller.control;

/**
 * How the sample follows the oven, learned in steady heating: both move at the same rate then, and
 * the sample is behind by (oven - sample) / rate. A thermocouple that slips off the sample shows
 * another lag from then on.
 *
 * <p>Heat of reaction brings the sample nearer to the oven, and its end takes it back. So nothing
 * is learned while the gas says that the solid reacts, and a lag is strange only if no heat that
 * goes with the uptake makes it the usual one.
 *
 * @param fromMillis beginning of the present window; -1 before the first
 * @param sampleK sample temperature then
 * @param ovenK oven temperature then
 * @param reactionK how far the reaction may have warmed the sample then
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
    double reactionK,
    boolean steadyBefore,
    double usualS,
    int learned,
    double learnedAtK,
    int strange) {
  static final SampleLag UNKNOWN = new SampleLag(-1, 0, 0, 0, false, 0, 0, 0, 0);

  private static final long WINDOW_MILLIS = 120_000;

  /** A window counts as steady if the oven moved by this much and the sample as much. */
  private static final double MOVED_K = 2;

  private static final double EVEN_SHARE = 0.25;

  /** Quick enough to follow what changes as the ramp goes on; a sensor slips at once. */
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

  /** Heat that stands the sample this far above its course hides its lag, in K. */
  private static final double REACTS_K = 1;

  SampleLag restarted() {
    return new SampleLag(-1, 0, 0, 0, false, usualS, learned, learnedAtK, strange);
  }

  /**
   * After a tick.
   *
   * @param newReactionK how far the reaction may warm the sample by what the gas says, in K
   */
  SampleLag step(double newSampleK, double newOvenK, double newReactionK, long nowMillis) {
    Window next = new Window(nowMillis, newSampleK, newOvenK, newReactionK);
    if (fromMillis < 0) {
      return from(next, false, usualS, learned, learnedAtK, strange);
    }
    if (nowMillis - fromMillis < WINDOW_MILLIS) {
      return this;
    }
    double movedK = newSampleK - sampleK;
    double ovenMovedK = newOvenK - ovenK;
    boolean steady =
        ovenMovedK >= MOVED_K && StrictMath.abs(movedK - ovenMovedK) <= EVEN_SHARE * ovenMovedK;
    double rateKPerS = movedK / ((nowMillis - fromMillis) / 1000.0);
    double behindK = ((newOvenK - newSampleK) + (ovenK - sampleK)) / 2;
    if (!steady || !steadyBefore || !(behindK > 0)) {
      return from(next, steady, usualS, learned, learnedAtK, strange);
    }
    // What has looked strange once is looked at again, however hot it is by then.
    boolean comparable = strange > 0 || StrictMath.abs(newSampleK - learnedAtK) <= COMPARABLE_K;
    int known = comparable ? learned : 0;
    double warmedK = StrictMath.max(reactionK, newReactionK);
    if (known >= LEARN_FROM && isOther(behindK, behindK + warmedK, rateKPerS)) {
      int times = StrictMath.min(strange + 1, STRANGE_ENOUGH);
      return from(next, true, usualS, learned, learnedAtK, times);
    }
    if (warmedK > REACTS_K) {
      return from(next, true, usualS, learned, learnedAtK, 0);
    }
    double lagS = behindK / rateKPerS;
    double usual = known == 0 ? lagS : usualS + LEARN_SHARE * (lagS - usualS);
    int count = StrictMath.min(known + 1, LEARN_FROM);
    return from(next, true, usual, count, newSampleK, 0);
  }

  /** Whether a sample that is behind by anything between the two is on another thermal path. */
  private boolean isOther(double leastBehindK, double mostBehindK, double rateKPerS) {
    double usualK = usualS * rateKPerS;
    boolean longer = leastBehindK > OTHER * usualK && leastBehindK - usualK > APART_K;
    boolean shorter = mostBehindK < usualK / OTHER && usualK - mostBehindK > APART_K;
    return longer || shorter;
  }

  /** Where a window begins. */
  private record Window(long millis, double sampleK, double ovenK, double reactionK) {}

  private static SampleLag from(
      Window at, boolean steady, double usualS, int learned, double learnedAtK, int strange) {
    return new SampleLag(
        at.millis,
        at.sampleK,
        at.ovenK,
        at.reactionK,
        steady,
        usualS,
        learned,
        learnedAtK,
        strange);
  }

  boolean loose() {
    return strange >= STRANGE_ENOUGH;
  }
}
