package tarnish.controller.control;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;

/**
 * Whether a value that a device calls good can be believed: it must move as a live sensor does, and
 * no faster than the bench can. Immutable; a tick in which nothing new is seen gives back the same
 * instance.
 *
 * <p>A value is only ever taken away, never put in its place: what is not believed is a bad
 * reading, and bad readings can only cost permits.
 */
final class Plausibility {
  /** A jump that lasts this long is where the sensor now stands; by then it has tripped. */
  private static final long ACCEPT_AFTER_MILLIS = 3000;

  /** After a gap this long nothing is known about what the bench could do in it. */
  private static final long GAP_MILLIS = 1000;

  private static final Channel[] CHANNELS = Channel.values();

  private final long[] stillSteps;
  private final long[] stillSinceMillis;
  private final double[] near;
  private final long[] rejectedSinceMillis;
  private final int moved;
  private final int frozen;
  private final int jumped;

  private Plausibility(
      long[] stillSteps,
      long[] stillSinceMillis,
      double[] near,
      long[] rejectedSinceMillis,
      int moved,
      int frozen,
      int jumped) {
    this.stillSteps = stillSteps;
    this.stillSinceMillis = stillSinceMillis;
    this.near = near;
    this.rejectedSinceMillis = rejectedSinceMillis;
    this.moved = moved;
    this.frozen = frozen;
    this.jumped = jumped;
  }

  /** Before the first tick. */
  static Plausibility unseen() {
    double[] near = new double[Channel.COUNT];
    java.util.Arrays.fill(near, Double.NaN);
    long[] never = new long[Channel.COUNT];
    java.util.Arrays.fill(never, -1);
    return new Plausibility(new long[Channel.COUNT], never, near, never.clone(), 0, 0, 0);
  }

  /** Why a channel's good value is not believed, or null. */
  BadReason doubt(Channel channel) {
    int bit = 1 << channel.ordinal();
    if ((jumped & bit) != 0) {
      return BadReason.JUMPED;
    }
    return (frozen & bit) != 0 ? BadReason.FROZEN : null;
  }

  /** The readings as far as they can be believed; the same instance where all can. */
  Readings believed(Readings raw) {
    int doubted = frozen | jumped;
    if (doubted == 0) {
      return raw;
    }
    Readings believed = raw.copy();
    for (Channel channel : CHANNELS) {
      if ((doubted & (1 << channel.ordinal())) != 0 && raw.isGood(channel)) {
        believed.bad(channel, doubt(channel));
      }
    }
    return believed;
  }

  /**
   * One tick.
   *
   * @param raw readings as the devices gave them
   * @param nowMillis time of the tick
   * @param lastMillis time of the last one
   */
  Plausibility step(PlausibilityRules rules, Readings raw, long nowMillis, long lastMillis) {
    boolean gap = nowMillis - lastMillis > GAP_MILLIS;
    Draft draft = null;
    for (Channel channel : rules.watched()) {
      if (raw.isGood(channel) && (gap || tellsNews(channel, raw, rules, nowMillis))) {
        draft = draft == null ? new Draft(this) : draft;
        draft.still(channel.ordinal(), raw.steps(channel), rules, nowMillis, gap);
        draft.jump(channel.ordinal(), raw.value(channel), rules, nowMillis, gap);
      }
    }
    return draft == null ? this : draft.done();
  }

  /** False in most ticks: a value that has moved in its window moves on a little. */
  private boolean tellsNews(
      Channel channel, Readings raw, PlausibilityRules rules, long nowMillis) {
    int i = channel.ordinal();
    int bit = 1 << i;
    if (((frozen | jumped) & bit) != 0) {
      return true;
    }
    long windowMillis = rules.stillMillis(i);
    boolean still =
        windowMillis != 0
            && ((moved & bit) == 0
                || stillSinceMillis[i] < 0
                || nowMillis - stillSinceMillis[i] >= windowMillis);
    return still || isAway(raw.value(channel), near[i], rules.mostPerTick(i));
  }

  /** Whether a value has left the surroundings within which it is not looked at more closely. */
  private static boolean isAway(double value, double near, double perTick) {
    return perTick != 0 && !(StrictMath.abs(value - near) <= perTick / 4);
  }

  /** Copies on the first change only. */
  private static final class Draft {
    private Plausibility base;
    private int moved;
    private int frozen;
    private int jumped;
    private boolean ownStill;
    private boolean ownNear;
    private boolean ownRejected;

    Draft(Plausibility base) {
      this.base = base;
      moved = base.moved;
      frozen = base.frozen;
      jumped = base.jumped;
    }

    Plausibility done() {
      boolean same = moved == base.moved && frozen == base.frozen && jumped == base.jumped;
      if (same) {
        return base;
      }
      return new Plausibility(
          base.stillSteps,
          base.stillSinceMillis,
          base.near,
          base.rejectedSinceMillis,
          moved,
          frozen,
          jumped);
    }

    /** Only what changes is copied: most ticks move a value a little and nothing else. */
    private void ownStill() {
      if (!ownStill) {
        base =
            new Plausibility(
                base.stillSteps.clone(),
                base.stillSinceMillis.clone(),
                base.near,
                base.rejectedSinceMillis,
                base.moved,
                base.frozen,
                base.jumped);
        ownStill = true;
      }
    }

    private void ownNear() {
      if (!ownNear) {
        base =
            new Plausibility(
                base.stillSteps,
                base.stillSinceMillis,
                base.near.clone(),
                base.rejectedSinceMillis,
                base.moved,
                base.frozen,
                base.jumped);
        ownNear = true;
      }
    }

    private void rejectSince(int i, long millis) {
      if (base.rejectedSinceMillis[i] == millis) {
        return;
      }
      if (!ownRejected) {
        base =
            new Plausibility(
                base.stillSteps,
                base.stillSinceMillis,
                base.near,
                base.rejectedSinceMillis.clone(),
                base.moved,
                base.frozen,
                base.jumped);
        ownRejected = true;
      }
      base.rejectedSinceMillis[i] = millis;
    }

    void still(int i, long steps, PlausibilityRules rules, long nowMillis, boolean gap) {
      long windowMillis = rules.stillMillis(i);
      if (windowMillis == 0) {
        return;
      }
      int bit = 1 << i;
      if (steps != base.stillSteps[i]) {
        moved |= bit;
        frozen &= ~bit;
      }
      boolean first = base.stillSinceMillis[i] < 0 || gap;
      if (first || nowMillis - base.stillSinceMillis[i] >= windowMillis) {
        if (!first && (moved & bit) == 0) {
          frozen |= bit;
        }
        ownStill();
        base.stillSteps[i] = steps;
        base.stillSinceMillis[i] = nowMillis;
        moved &= ~bit;
      }
    }

    void jump(int i, double value, PlausibilityRules rules, long nowMillis, boolean gap) {
      double perTick = rules.mostPerTick(i);
      if (perTick == 0) {
        return;
      }
      int bit = 1 << i;
      double away = StrictMath.abs(value - base.near[i]);
      if (away <= perTick / 4 && (jumped & bit) == 0) {
        return;
      }
      boolean known = !Double.isNaN(base.near[i]) && !gap;
      boolean rejecting = base.rejectedSinceMillis[i] >= 0;
      boolean settled = rejecting && nowMillis - base.rejectedSinceMillis[i] > ACCEPT_AFTER_MILLIS;
      if (!known || settled || away <= perTick) {
        ownNear();
        base.near[i] = value;
        rejectSince(i, -1);
        jumped &= ~bit;
      } else {
        rejectSince(i, rejecting ? base.rejectedSinceMillis[i] : nowMillis);
        jumped |= bit;
      }
    }
  }
}
