package tarnish.controller.control;

/**
 * The oxygen valve's pulse: bounded in size and in time, whoever asks for it.
 *
 * @param open whether the valve is asked to be open
 * @param fromPa pressure when it began, in Pa
 * @param toPa pressure at which it ends, in Pa
 * @param openS time it has been open, in s
 * @param sinceS time since the last pulse ended, in s; counted until gas may be topped up
 * @param mostS longest time that it may be open, in s
 */
record Pulse(boolean open, double fromPa, double toPa, double openS, double sinceS, double mostS) {
  /** Shortest time between two top-ups, in s. */
  private static final double SPACING_S = 30;

  static final Pulse NONE = new Pulse(false, 0, 0, 0, SPACING_S, 0);

  /** A valve open this long without a sign of gas is blocked or its source is empty. */
  private static final double NO_STEP_S = 8;

  /** Longest pulse, whatever the gauge says. */
  private static final double OPEN_MAX_S = 60;

  /** Least part of the wanted pressure step that counts as a sign of gas. */
  private static final double STEP_SHARE = 0.25;

  Pulse begin(double pressurePa, double stepPa) {
    return begin(pressurePa, stepPa, OPEN_MAX_S);
  }

  /** The same, but open for no longer than {@code longestS}: fast uptake hides what goes in. */
  Pulse begin(double pressurePa, double stepPa, double longestS) {
    double allowedS = StrictMath.min(OPEN_MAX_S, longestS);
    return new Pulse(true, pressurePa, pressurePa + stepPa, 0, 0, allowedS);
  }

  /** Whether the last pulse has been over for long enough. */
  boolean mayTopUp() {
    return !open && sinceS >= SPACING_S;
  }

  Pulse shut() {
    return open ? new Pulse(false, fromPa, toPa, openS, 0, mostS) : this;
  }

  /** One tick; demands the valve while open. */
  Pulse step(double pressurePa, TickWork work) {
    if (!open) {
      return mayTopUp() ? this : new Pulse(false, fromPa, toPa, openS, sinceS + work.tickS, mostS);
    }
    double nowOpenS = openS + work.tickS;
    if (pressurePa >= toPa || nowOpenS >= mostS) {
      return shut();
    }
    if (nowOpenS >= NO_STEP_S && pressurePa - fromPa < STEP_SHARE * (toPa - fromPa)) {
      work.report(InterlockTable.NO_PRESSURE_STEP, "");
      return shut();
    }
    work.demand(tarnish.shared.rig.Switch.OXYGEN);
    return new Pulse(true, fromPa, toPa, nowOpenS, 0, mostS);
  }
}
