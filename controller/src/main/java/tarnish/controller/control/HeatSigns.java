package tarnish.controller.control;

import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * What oven and sample did over the last minutes, as far as an interlock needs to know. Immutable;
 * it changes at the ends of its windows only.
 *
 * @param zeroSinceMillis since when the heater has been told to give nothing; -1 while it is told
 *     to heat
 * @param coolestOvenK coolest oven since its output has been zero and the element has given up its
 *     heat; 0 before
 * @param coolestAtMillis when that was
 * @param fullSinceMillis since when the heater has been told to give all it may; -1 while not
 * @param fullOvenK oven temperature then
 * @param gridMillis beginning of the present short window
 * @param gridSampleK sample temperature then
 * @param runawayGrids short windows in a row that look like a runaway
 * @param lag how the sample follows the oven
 */
record HeatSigns(
    long zeroSinceMillis,
    double coolestOvenK,
    long coolestAtMillis,
    long fullSinceMillis,
    double fullOvenK,
    long gridMillis,
    double gridSampleK,
    int runawayGrids,
    SampleLag lag) {
  static final HeatSigns NONE = new HeatSigns(-1, 0, 0, -1, 0, -1, 0, 0, SampleLag.UNKNOWN);

  /** An element that was at full power has by then given its heat to the oven. */
  private static final long ELEMENT_MILLIS = 60_000;

  /** How long the coolest oven is remembered: a slow drift of the room is no welded relay. */
  private static final long COOLEST_MILLIS = 600_000;

  /** Rise at zero output that no stored heat explains, in K. */
  private static final double STUCK_ON_K = 4;

  /** How far a sample may stand above the oven before its heat may be what warms the oven, in K. */
  private static final double SAMPLE_HEATS_OVEN_K = 5;

  private static final long FULL_MILLIS = 240_000;
  private static final double FULL_SHARE = 0.9;

  /** Least rise of a living heater in that time, in K. */
  private static final double ALIVE_K = 3;

  private static final long GRID_MILLIS = 2_000;

  /** Sample ahead of oven and still climbing: only a reaction does that. In K and K/s. */
  private static final double AHEAD_K = 12;

  private static final double AHEAD_CLIMBS_K_PER_S = 0.15;

  /** A climb that no oven of this kind can drive, in K/s. */
  private static final double CLIMBS_K_PER_S = 0.8;

  /** A climb so fast that one window is enough, in K/s. */
  private static final double LEAPS_K_PER_S = 3;

  private static final int GRIDS_TO_BELIEVE = 2;

  HeatSigns step(TickWork work, long nowMillis, boolean gap) {
    if (gap || gridMillis < 0) {
      return fresh(work, nowMillis, lag);
    }
    HeatSigns next = outputs(work, nowMillis);
    return nowMillis - next.gridMillis >= GRID_MILLIS ? next.grid(work, nowMillis) : next;
  }

  private static HeatSigns fresh(TickWork work, long nowMillis, SampleLag lag) {
    return new HeatSigns(-1, 0, 0, -1, 0, nowMillis, work.sampleK(), 0, lag.restarted());
  }

  private HeatSigns outputs(TickWork work, long nowMillis) {
    Outputs told = work.outputsBefore;
    boolean zero = told.heaterPerMille() == 0 && !told.isOn(Switch.HEATER);
    boolean full = told.heaterPerMille() >= FULL_SHARE * 1000 * work.plan.rig().heater().dutyMax();
    HeatSigns next = this;
    if (zero != zeroSinceMillis >= 0) {
      next = next.withZero(zero ? nowMillis : -1, 0, nowMillis);
    } else if (zero && nowMillis - zeroSinceMillis >= ELEMENT_MILLIS) {
      boolean old = coolestOvenK == 0 || nowMillis - coolestAtMillis >= COOLEST_MILLIS;
      if (old || work.ovenK() < coolestOvenK - STUCK_ON_K / 8) {
        next = next.withZero(zeroSinceMillis, work.ovenK(), nowMillis);
      }
    }
    if (full != fullSinceMillis >= 0) {
      next = next.withFull(full ? nowMillis : -1, work.ovenK());
    } else if (full && work.ovenK() > fullOvenK + ALIVE_K) {
      next = next.withFull(nowMillis, work.ovenK());
    }
    return next;
  }

  private HeatSigns grid(TickWork work, long nowMillis) {
    double seconds = (nowMillis - gridMillis) / 1000.0;
    double sampleRate = (work.sampleK() - gridSampleK) / seconds;
    int weight = sampleRate > LEAPS_K_PER_S ? GRIDS_TO_BELIEVE : 1;
    boolean runs =
        sampleRate > CLIMBS_K_PER_S
            || (work.sampleK() - work.ovenK() > AHEAD_K && sampleRate > AHEAD_CLIMBS_K_PER_S);
    return new HeatSigns(
        zeroSinceMillis,
        coolestOvenK,
        coolestAtMillis,
        fullSinceMillis,
        fullOvenK,
        nowMillis,
        work.sampleK(),
        runs ? StrictMath.min(runawayGrids + weight, GRIDS_TO_BELIEVE) : 0,
        lag.isDue(nowMillis)
            ? lag.step(work.sampleK(), work.ovenK(), reactionMostK(work), nowMillis)
            : lag);
  }

  /** How many times as warm as thought a reaction may make the sample where no fit tells better. */
  private static final double HEAT_UNSURE = 2.5;

  private static double reactionMostK(TickWork work) {
    double guess = work.heat.balance().molPerKelvinSecond(work.plan).value();
    double fitted = work.gas.valveFit().leastMolPerKelvinSecond();
    double least = StrictMath.max(fitted, guess / HEAT_UNSURE);
    return StrictMath.max(0, work.gas.rateMolPerS()) / least;
  }

  private HeatSigns withZero(long since, double coolest, long at) {
    return new HeatSigns(
        since, coolest, at, fullSinceMillis, fullOvenK, gridMillis, gridSampleK, runawayGrids, lag);
  }

  private HeatSigns withFull(long since, double ovenK) {
    return new HeatSigns(
        zeroSinceMillis,
        coolestOvenK,
        coolestAtMillis,
        since,
        ovenK,
        gridMillis,
        gridSampleK,
        runawayGrids,
        lag);
  }

  /** The oven rises although its heater is told to give nothing. */
  static boolean heaterStuckOn(TickWork work) {
    HeatSigns heat = work.signs.heat();
    return work.believable()
        && heat.coolestOvenK > 0
        && work.ovenK() > heat.coolestOvenK + STUCK_ON_K
        && work.sampleK() < work.ovenK() + SAMPLE_HEATS_OVEN_K;
  }

  /** The oven does not rise although its heater is told to give all it may. */
  static boolean heaterDead(TickWork work) {
    HeatSigns heat = work.signs.heat();
    return heat.fullSinceMillis >= 0 && work.lastMillis - heat.fullSinceMillis >= FULL_MILLIS;
  }

  /** The sample climbs ahead of the oven, or faster than the oven can drive it. */
  static boolean runaway(TickWork work) {
    return work.signs.heat().runawayGrids >= GRIDS_TO_BELIEVE;
  }

  /** The sample thermocouple follows the oven quite otherwise than it did before. */
  static boolean sampleLoose(TickWork work) {
    return work.signs.heat().lag.loose();
  }
}
