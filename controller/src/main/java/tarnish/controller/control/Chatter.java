package tarnish.controller.control;

import java.util.Arrays;

/**
 * Which rows come and go too often. An alarm that comes back soon after it went is held longer, so
 * that no cause however restless raises it more than {@link #MOST_IN_A_MINUTE} times in a minute:
 * three and more in a minute are chattering (IEC 62682; the figure as in ISA-18.2, from memory).
 * Immutable: arrays are replaced.
 *
 * @param wentMillis when each row last went; {@link Long#MIN_VALUE} where it never did
 * @param often whether the present occurrence of each row came soon after the one before
 */
record Chatter(long[] wentMillis, boolean[] often) {
  /** Coming back within this is chatter, and so long must its cause then be gone, in s. */
  static final double HELD_S = 20;

  /** One that comes, goes at once and is held from then on: 0 s, 1 s, 21 s, 41 s. */
  static final int MOST_IN_A_MINUTE = 4;

  private static final long NEVER = Long.MIN_VALUE;

  static Chatter none(int rows) {
    long[] never = new long[rows];
    Arrays.fill(never, NEVER);
    return new Chatter(never, new boolean[rows]);
  }

  /** How long the cause of a row that is up must be gone, in s. */
  double offDelayS(int row, double usualS) {
    return often[row] ? StrictMath.max(HELD_S, usualS) : usualS;
  }

  Chatter came(int row, long nowMillis) {
    boolean soon = wentMillis[row] != NEVER && nowMillis - wentMillis[row] < HELD_S * 1000;
    if (soon == often[row]) {
      return this;
    }
    boolean[] changed = often.clone();
    changed[row] = soon;
    return new Chatter(wentMillis, changed);
  }

  Chatter went(int row, long nowMillis) {
    long[] changed = wentMillis.clone();
    changed[row] = nowMillis;
    return new Chatter(changed, often);
  }
}
