package tarnish.controller.control;

/**
 * What control remembers of the readings to judge the next ones by.
 *
 * @param plausibility whether each value can be believed
 * @param heat what oven and sample did
 * @param gas what the pressure did
 */
record Signs(Plausibility plausibility, HeatSigns heat, GasSigns gas) {
  /** After a gap this long the windows begin anew. */
  private static final long GAP_MILLIS = 1000;

  static Signs none() {
    return new Signs(Plausibility.unseen(), HeatSigns.NONE, GasSigns.NONE);
  }

  /** Judges the raw readings of a tick and takes those that are believed into {@code work}. */
  static void step(TickWork work, long nowMillis, long lastMillis) {
    Signs old = work.signs;
    Plausibility plausibility =
        old.plausibility.step(work.plan.plausibility(), work.readings, nowMillis, lastMillis);
    work.readings = plausibility.believed(work.readings);
    boolean gap = nowMillis - lastMillis > GAP_MILLIS;
    HeatSigns heat = old.heat;
    GasSigns gas = old.gas;
    if (work.believable()) {
      heat = heat.step(work, nowMillis, gap);
      gas = gas.step(work, nowMillis, gap);
    }
    boolean same = plausibility == old.plausibility && heat == old.heat && gas == old.gas;
    work.signs = same ? old : new Signs(plausibility, heat, gas);
  }
}
