package tarnish.controller.control;

import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * What the pressure did over the last minutes, as far as an interlock needs to know. Immutable; it
 * changes when a valve moves and at the ends of its windows only.
 *
 * @param doing which valves have been open
 * @param sinceMillis since when
 * @param startPa pressure then
 * @param reference state of the gas at the beginning of the present window
 * @param recent the same for a shorter window
 * @param slowRise whether the pressure rose over a whole window with every valve shut
 * @param fill how a fill gets on; null while nothing is filled
 */
record GasSigns(
    Doing doing,
    long sinceMillis,
    double startPa,
    Mark reference,
    Mark recent,
    boolean slowRise,
    FillWatch fill) {

  /** What the valves do, as far as it matters here. */
  enum Doing {
    UNSEEN,
    SHUT,
    PUMPING,
    FILLING,
    FILLING_OXYGEN,
    VENTING,
    OTHER
  }

  /** Pressure, temperatures and p V/T at a moment. */
  record Mark(long millis, double pressurePa, double sampleK, double ovenK, double amount) {}

  static final GasSigns NONE = new GasSigns(Doing.UNSEEN, -1, 0, null, null, false);

  GasSigns(
      Doing doing,
      long sinceMillis,
      double startPa,
      Mark reference,
      Mark recent,
      boolean slowRise) {
    this(doing, sinceMillis, startPa, reference, recent, slowRise, null);
  }

  /** Valve and gauge have come to rest. */
  private static final long REST_MILLIS = 2_000;

  private static final long WINDOW_MILLIS = 300_000;

  /** Once gas comes in it is looked at more often, so that its end is seen soon. */
  private static final long RECENT_MILLIS = 30_000;

  private static final long FOLLOW_MILLIS = 60_000;

  /** Rise that is at once too much, and one that is too much over a whole window, in Pa. */
  private static final double FAST_PA = 800;

  private static final double SLOW_PA = 150;

  /** Noise of a gauge, in Pa, and a rise that a dose waits for, in Pa/s. */
  private static final double CREEPS_PA = 30;

  private static final double CREEPS_PA_PER_S = 1;

  /**
   * How far the gas may stay behind: fully, where only one of sample and oven moves (a reaction
   * heats the solid, not the gas), a little, where both move alike.
   */
  private static final double APART_SHARE = 1.0;

  private static final double ALIKE_SHARE = 0.25;

  private static final double AT_ROOM_PA = 400;
  private static final long AT_ROOM_MILLIS = 60_000;
  private static final double PAST_ROOM_PA = 1500;

  /** What a change of temperature must have done to the pressure of a closed vessel, in Pa. */
  private static final double STAYS_PA = 1500;

  private static final long PUMP_MILLIS = 15_000;
  private static final double PUMP_SHARE = 0.7;
  private static final double PUMP_DONE_PA = 300;

  /** Coverage of the gauge's zero, where it is worse than that. */
  private static final double ZERO_COVERAGE = 4;

  private static final long VENT_MILLIS = 10_000;
  private static final double VENT_OVER_PA = 2000;
  private static final double VENT_SHARE = 0.8;

  GasSigns step(TickWork work, long nowMillis, boolean gap) {
    Doing now = doing(work.outputsBefore, work.pulse);
    boolean fills = now == Doing.FILLING || now == Doing.FILLING_OXYGEN;
    if (gap || now != doing) {
      return filling(now, nowMillis, work, fills ? FillWatch.begin(work, nowMillis) : null);
    }
    if (fills) {
      FillWatch next = fill.step(work, nowMillis);
      return next == fill ? this : filling(now, sinceMillis, work, next);
    }
    if (doing == Doing.PUMPING || doing == Doing.VENTING) {
      return pulling(work, nowMillis);
    }
    return doing == Doing.SHUT ? shut(work, nowMillis) : this;
  }

  private static GasSigns filling(Doing doing, long sinceMillis, TickWork work, FillWatch fill) {
    return new GasSigns(doing, sinceMillis, work.pressurePa(), null, null, false, fill);
  }

  /** Pumping and venting are judged by windows of their own. */
  private GasSigns pulling(TickWork work, long nowMillis) {
    double pressurePa = work.pressurePa();
    boolean pulls =
        doing == Doing.PUMPING
            ? pressurePa < PUMP_SHARE * startPa
            : overRoom(pressurePa, work) < VENT_SHARE * overRoom(startPa, work);
    return pulls ? new GasSigns(doing, nowMillis, pressurePa, null, null, false) : this;
  }

  private static double overRoom(double pressurePa, TickWork work) {
    return pressurePa - work.roomPa();
  }

  private GasSigns shut(TickWork work, long nowMillis) {
    if (nowMillis - sinceMillis < REST_MILLIS) {
      return this;
    }
    if (reference == null) {
      Mark first = mark(work, nowMillis);
      return new GasSigns(doing, sinceMillis, work.pressurePa(), first, first, slowRise);
    }
    long windowMillis = slowRise ? FOLLOW_MILLIS : WINDOW_MILLIS;
    if (nowMillis - reference.millis >= windowMillis) {
      boolean rose = risePa(reference, work) > SLOW_PA + thermalPa(reference, work);
      Mark next = mark(work, nowMillis);
      return new GasSigns(doing, sinceMillis, startPa, next, next, rose);
    }
    if (nowMillis - recent.millis < RECENT_MILLIS) {
      return this;
    }
    Mark next = mark(work, nowMillis);
    boolean rises = risesFast(work);
    return new GasSigns(
        doing, sinceMillis, startPa, rises ? next : reference, next, slowRise || rises);
  }

  private static Mark mark(TickWork work, long nowMillis) {
    double amount = work.pressurePa() * work.volumeOverTemperature();
    return new Mark(nowMillis, work.pressurePa(), work.sampleK(), work.ovenK(), amount);
  }

  private static Doing doing(Outputs told, Pulse pulse) {
    boolean pump = told.isOn(Switch.VACUUM) && told.isOn(Switch.PUMP);
    boolean oxygen = told.isOn(Switch.OXYGEN);
    boolean inert = told.isOn(Switch.INERT);
    boolean vent = told.isOn(Switch.VENT);
    boolean vacuum = told.isOn(Switch.VACUUM);
    if (!pump && !oxygen && !inert && !vent && !vacuum) {
      return Doing.SHUT;
    }
    if (pump && !oxygen && !inert && !vent) {
      return Doing.PUMPING;
    }
    if (inert && !pump && !vent && !oxygen) {
      return Doing.FILLING;
    }
    if (oxygen && !pump && !vent && !inert && !pulse.open()) {
      return Doing.FILLING_OXYGEN;
    }
    return vent && !pump && !inert && !oxygen ? Doing.VENTING : Doing.OTHER;
  }

  /** Rise of the pressure that no warming explains, since the window began, in Pa. */
  private static double risePa(Mark since, TickWork work) {
    return work.pressurePa() - since.amount / work.volumeOverTemperature();
  }

  private static double thermalPa(Mark since, TickWork work) {
    double sampleK = work.sampleK() - since.sampleK;
    double ovenK = work.ovenK() - since.ovenK;
    double apartK = StrictMath.abs(sampleK - ovenK);
    double alikeK = StrictMath.min(StrictMath.abs(sampleK), StrictMath.abs(ovenK));
    double unsureK = APART_SHARE * apartK + ALIKE_SHARE * alikeK;
    return work.pressurePa() * unsureK / work.ovenK();
  }

  private boolean watching(TickWork work) {
    return doing == Doing.SHUT
        && reference != null
        && work.believable()
        && (!work.mayBeOpen() || isPastRoom(work));
  }

  /** The room cannot have filled the vessel to this, open or not. */
  private static boolean isPastRoom(TickWork work) {
    return work.pressurePa() > work.roomPa() + PAST_ROOM_PA;
  }

  /** Gas comes in although every valve is shut. */
  static boolean gasComesIn(TickWork work) {
    GasSigns gas = work.signs.gas();
    return gas.watching(work) && (gas.slowRise || gas.risesFast(work));
  }

  /**
   * The pressure goes up since the valves were shut, too little or not long enough yet for an
   * alarm. Both the pressure itself and what no warming explains must have risen: a sample that
   * cools after its reaction looks like gas coming in, but lets the pressure fall.
   */
  static boolean creepsUp(TickWork work) {
    GasSigns gas = work.signs.gas();
    if (!gas.watching(work)) {
      return false;
    }
    double shutS = (work.lastMillis - gas.reference.millis) / 1000.0;
    double allowedPa = CREEPS_PA + CREEPS_PA_PER_S * shutS;
    return work.pressurePa() - gas.reference.pressurePa > allowedPa
        && risePa(gas.reference, work) > allowedPa;
  }

  private boolean risesFast(TickWork work) {
    return risePa(recent, work) > FAST_PA + thermalPa(recent, work);
  }

  /** Gas comes in and goes on past the pressure of the room: it comes from a supply. */
  static boolean supplyLeaksIn(TickWork work) {
    return gasComesIn(work) && isPastRoom(work);
  }

  /** The pressure went to that of the room by itself and stays there. */
  static boolean vesselLeaks(TickWork work) {
    GasSigns gas = work.signs.gas();
    boolean cameHere =
        gas.watching(work)
            && work.lastMillis - gas.sinceMillis >= AT_ROOM_MILLIS
            && isAtRoom(work.pressurePa(), work)
            && work.alarms.isActive(InterlockTable.GAS_COMES_IN, work.plan.interlocks());
    return cameHere || openToTheRoom(work);
  }

  /** The pressure stays at that of the room although the gas gets warmer or colder. */
  private static boolean openToTheRoom(TickWork work) {
    GasSigns gas = work.signs.gas();
    return gas.watching(work)
        && work.lastMillis - gas.reference.millis >= AT_ROOM_MILLIS
        && isAtRoom(work.pressurePa(), work)
        && isAtRoom(gas.reference.pressurePa, work)
        && StrictMath.abs(risePa(gas.reference, work)) > STAYS_PA;
  }

  private static boolean isAtRoom(double pressurePa, TickWork work) {
    return StrictMath.abs(pressurePa - work.roomPa()) < AT_ROOM_PA;
  }

  /** Gas comes or goes past the valves, or did and nobody has said yet that it is over. */
  static boolean isDoubted(TickWork work) {
    return work.alarms.isActive(InterlockTable.GAS_COMES_IN, work.plan.interlocks())
        || work.alarms.isActive(InterlockTable.VESSEL_LEAKS, work.plan.interlocks())
        || gasComesIn(work)
        || openToTheRoom(work);
  }

  /** The pump runs and its valve is open, but the pressure does not fall. */
  static boolean pumpFails(TickWork work) {
    GasSigns gas = work.signs.gas();
    return gas.doing == Doing.PUMPING
        && work.believable()
        && work.lastMillis - gas.sinceMillis >= PUMP_MILLIS
        && work.pressurePa() > pumpDonePa(work);
  }

  /** Below this a pump that is good may pull no further, or the gauge not show it. */
  private static double pumpDonePa(TickWork work) {
    double zeroPa = ZERO_COVERAGE * work.plan.gasModel().gaugeZeroPa();
    return StrictMath.max(PUMP_DONE_PA, zeroPa) + 3 * work.plan.rig().pumpUltimatePa();
  }

  /** The vessel is to be filled, but the pressure does not rise, or no longer. */
  static boolean fillFails(TickWork work) {
    GasSigns gas = work.signs.gas();
    return gas.fill != null
        && work.believable()
        && gas.fill.standsStill(work, gas.doing == Doing.FILLING_OXYGEN);
  }

  /** The vent is open, but the pressure stays above that of the room. */
  static boolean ventBlocked(TickWork work) {
    GasSigns gas = work.signs.gas();
    return gas.doing == Doing.VENTING
        && work.believable()
        && work.lastMillis - gas.sinceMillis >= VENT_MILLIS
        && overRoom(work.pressurePa(), work) > VENT_OVER_PA;
  }
}
