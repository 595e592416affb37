package tarnish.controller.control;

/**
 * How the sample follows the oven, learned in steady heating: both move at the same rate then, and
 * the sample is behind by (oven - sample) / rate. A thermocouple that slips off the sample shows
 * another lag from then on.
 *
 * <p>Heat of reaction brings the sample nearer to the oven, and its end takes it back. How warm an
 * uptake makes the sample is known within a factor only, the same now as when the lag was learned;
 * so a lag is strange if no share of the most that this heat may have changed by explains it.
 *
 * @param fromMillis beginning of the present window; -1 before the first
 * @param sampleK sample temperature then
 * @param ovenK oven temperature then
 * @param reactionK how far the reaction may have warmed the sample then
 * @param steadyBefore whether the window before was steady, too
 * @param usualS lag learned so far; 0 before the first
 * @param usualHeatS what the heat of reaction then may have taken from it, at most
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
    double usualHeatS,
    int learned,
    double learnedAtK,
    int strange) {
  static final SampleLag UNKNOWN = new SampleLag(-1, 0, 0, 0, false, 0, 0, 0, 0, 0);

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

  SampleLag restarted() {
    return new SampleLag(-1, 0, 0, 0, false, usualS, usualHeatS, learned, learnedAtK, strange);
  }

  /** Whether a window begins or ends now; in between nothing changes. */
  boolean isDue(long nowMillis) {
    return fromMillis < 0 || nowMillis - fromMillis >= WINDOW_MILLIS;
  }

  /**
   * After a tick.
   *
   * @param newReactionK how far the reaction may warm the sample by what the gas says, in K
   */
  SampleLag step(double newSampleK, double newOvenK, double newReactionK, long nowMillis) {
    Window next = new Window(nowMillis, newSampleK, newOvenK, newReactionK);
    if (fromMillis < 0) {
      return unlearned(next, false, strange);
    }
    if (!isDue(nowMillis)) {
      return this;
    }
    double movedK = newSampleK - sampleK;
    double ovenMovedK = newOvenK - ovenK;
    boolean steady =
        ovenMovedK >= MOVED_K && StrictMath.abs(movedK - ovenMovedK) <= EVEN_SHARE * ovenMovedK;
    double rateKPerS = movedK / ((nowMillis - fromMillis) / 1000.0);
    double behindK = ((newOvenK - newSampleK) + (ovenK - sampleK)) / 2;
    if (!steady || !steadyBefore || !(behindK > 0)) {
      return unlearned(next, steady, strange);
    }
    // What has looked strange once is looked at again, however hot it is by then.
    boolean comparable = strange > 0 || StrictMath.abs(newSampleK - learnedAtK) <= COMPARABLE_K;
    int known = comparable ? learned : 0;
    double heatK = StrictMath.max(reactionK, newReactionK);
    if (known >= LEARN_FROM && isOther(behindK, heatK, rateKPerS)) {
      return unlearned(next, true, StrictMath.min(strange + 1, STRANGE_ENOUGH));
    }
    double share = known == 0 ? 1 : LEARN_SHARE;
    return new SampleLag(
        nowMillis,
        newSampleK,
        newOvenK,
        newReactionK,
        true,
        usualS + share * (behindK / rateKPerS - usualS),
        usualHeatS + share * (heatK / rateKPerS - usualHeatS),
        StrictMath.min(known + 1, LEARN_FROM),
        newSampleK,
        0);
  }

  /** What lies between none and all of the heat is between, for all of it is linear. */
  private boolean isOther(double behindK, double heatK, double rateKPerS) {
    double withoutHeatK = usualS * rateKPerS;
    double withHeatK = withoutHeatK + usualHeatS * rateKPerS - heatK;
    boolean longer = isLonger(behindK, withoutHeatK) && isLonger(behindK, withHeatK);
    boolean shorter = isLonger(withoutHeatK, behindK) && isLonger(withHeatK, behindK);
    return longer || shorter;
  }

  private static boolean isLonger(double behindK, double thanK) {
    return behindK > OTHER * thanK && behindK - thanK > APART_K;
  }

  /** Where a window begins. */
  private record Window(long millis, double sampleK, double ovenK, double reactionK) {}

  private SampleLag unlearned(Window at, boolean steady, int nowStrange) {
    return new SampleLag(
        at.millis,
        at.sampleK,
        at.ovenK,
        at.reactionK,
        steady,
        usualS,
        usualHeatS,
        learned,
        learnedAtK,
        nowStrange);
  }

  boolean loose() {
    return strange >= STRANGE_ENOUGH;
  }
}
