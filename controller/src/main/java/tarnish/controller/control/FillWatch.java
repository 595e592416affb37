package tarnish.controller.control;

/**
 * How a fill of the vessel gets on: whether the pressure still rises, from its beginning to its
 * end. Immutable; it changes when a valve moves and whenever enough has come in.
 *
 * @param sinceMillis when the pressure stood at {@code fromPa}
 * @param fromPa pressure from which the next rise counts
 * @param fromSampleK sample temperature then
 * @param fromOvenK oven temperature then
 * @param slowestMillis the longest time that such a rise took in this fill; 0 before the first
 */
record FillWatch(
    long sinceMillis, double fromPa, double fromSampleK, double fromOvenK, long slowestMillis) {
  private static final long INERT_MILLIS = 5_000;

  /** Long enough for a thermocouple to show the heat of what a hungry solid takes up at once. */
  private static final long OXYGEN_MILLIS = 15_000;

  private static final double RISE_PA = 500;

  /**
   * A slow regulator or valve has this many times the time that it took before, or that the rig
   * file's flow takes. Near the pressure of its supply the flow falls as the root of what is
   * missing (ISO 6358, subsonic), so that the last rise takes at most 2.4 times as long as the one
   * before it.
   */
  private static final double TIMES_SLOWER = 3;

  /** A sample that warms by so much more than the oven takes up what comes in, in K. */
  private static final double TAKES_UP_K = 1;

  /** One that stands so far above the oven in oxygen may take up all of a slow valve's, in K. */
  private static final double AHEAD_K = 5;

  /** Beginning nearer to room pressure than this there may be nothing to fill, in Pa. */
  private static final double BELOW_ROOM_PA = 200;

  static FillWatch begin(TickWork work, long nowMillis) {
    return from(work, nowMillis, 0);
  }

  private static FillWatch from(TickWork work, long nowMillis, long slowestMillis) {
    return new FillWatch(nowMillis, work.pressurePa(), work.sampleK(), work.ovenK(), slowestMillis);
  }

  FillWatch step(TickWork work, long nowMillis) {
    if (work.pressurePa() >= fromPa + RISE_PA) {
      return from(work, nowMillis, StrictMath.max(slowestMillis, nowMillis - sinceMillis));
    }
    return takesUp(work) ? from(work, nowMillis, slowestMillis) : this;
  }

  private boolean takesUp(TickWork work) {
    return work.sampleK() - fromSampleK - (work.ovenK() - fromOvenK) >= TAKES_UP_K;
  }

  /** Whether nothing has come in for longer than it may take. */
  boolean standsStill(TickWork work, boolean oxygen) {
    double passedMillis = work.lastMillis - sinceMillis;
    if (passedMillis < (oxygen ? OXYGEN_MILLIS : INERT_MILLIS)
        || passedMillis < TIMES_SLOWER * slowestMillis
        || passedMillis < TIMES_SLOWER * byTheRigFileMillis(work, oxygen)) {
      return false;
    }
    boolean feeds = oxygen && work.sampleK() - work.ovenK() >= AHEAD_K;
    return !feeds && work.pressurePa() < fromPa + RISE_PA && work.roomPa() - fromPa > BELOW_ROOM_PA;
  }

  private static double byTheRigFileMillis(TickWork work, boolean oxygen) {
    double paPerS = oxygen ? Accounts.oxygenPaPerS(work) : Accounts.inertPaPerS(work);
    return 1000 * RISE_PA / paPerS;
  }
}
