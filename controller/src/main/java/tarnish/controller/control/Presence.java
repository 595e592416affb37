package tarnish.controller.control;

/**
 * Who answers for the bench.
 *
 * @param by the person checked in; empty where nobody is
 * @param untilMillis when the check-in runs out, in ms since the batch began
 * @param overdue whether it ran out without a check-out
 */
public record Presence(String by, long untilMillis, boolean overdue) {
  static final Presence NOBODY = new Presence("", 0, false);

  /** Longest check-in, in hours: about one shift, common practice. */
  public static final double HOURS_MAX = 12;

  /** Whether a person is there, so that the attended limits hold. */
  public boolean attended() {
    return !by.isEmpty() && !overdue;
  }

  /** The same check-in as seen by a batch whose time begins at {@code nowMillis}. */
  Presence since(long nowMillis) {
    return attended() ? new Presence(by, untilMillis - nowMillis, false) : this;
  }

  /** One tick: a check-in runs out at its time. */
  Presence step(long nowMillis) {
    return attended() && nowMillis >= untilMillis ? new Presence(by, untilMillis, true) : this;
  }
}
