package tarnish.controller.app;

import tarnish.controller.control.Audit;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/** What the oracles of a campaign remember of the bench as it really is. */
final class OracleMemory {
  private static final double TICK_S = 0.25;
  private static final double RATE_S = 10;
  private static final double RAMP_WINDOW_S = 120;
  private static final double COOLEST_S = 120;

  /** A lag is told from another if it is so many times as long, and by so much, in K. */
  private static final double LOOSE_TIMES = 2.75;

  private static final double LOOSE_APART_K = 8;

  /** Farther from where it was learned a lag may be another one, in K. */
  private static final double LOOSE_COMPARABLE_K = 65;

  /**
   * What heat of reaction may hide of a lag: three times the 22 K that a watt warms a sample of
   * these recipes, less the once that stands in the sample's temperature already, in K/W.
   */
  private static final double LOOSE_HIDDEN_K_PER_W = 44;

  /** Gas that came in longer ago than this may be accounted for by now. */
  private static final double MARK_S = 30;

  /**
   * The valve is tried for 8 s; the tick in which it opens and that in which it shuts count half.
   */
  private static final double PULSE_TRIED_S = 7.75;

  private static final double FILL_PA = 500;
  private static final double FILL_BELOW_ROOM_PA = 400;
  private static final double FILL_TAKEN_UP_K = 0.8;

  /** Three times what it took before, twice for the marks, twice for the time begun anew. */
  private static final double FILL_TIMES_SLOWER = 12;

  private final SimulatedRig bench;
  private Readings raw;
  private Outputs told = Outputs.OFF;

  double sampleFrozenForS;
  double gaugeFrozenForS;
  double jumpingForS;
  boolean waitsForPerson;
  double oxygenInVainS;
  double zeroForS;
  double coolestWallK;
  double deadForS;
  double sampleRateKPerS;
  double looseRampS;
  double gainPa;
  double overRoomPa;
  double atRoomForS;
  double fillInVainS;
  double fillStillS;
  boolean pulseInVain;
  boolean stepOverdue;

  private double stepBeforeS;
  private double leftBeforeS;
  private int positionBefore = -1;
  private double oxygenFromPa;
  private double fillFromPa;
  private double shutForS;
  private double shutMol;
  private double coolestAtS;
  private double markedS;
  private double markWallK;
  private double markSampleK;
  private double pumpForS;
  private double ventForS;
  private double rateFromK;
  private double rateForS;
  private double windowForS;
  private double windowWallK;
  private double deadFromK;
  private double oxygenForS;
  private double fillForS;
  private double stillForS;
  private double stillFromPa;
  private double stillAheadK;
  private double slowestFillS;
  private boolean knewLag;
  private double knewLagAtK;
  private boolean wasLost;

  OracleMemory(SimulatedRig bench) {
    this.bench = bench;
  }

  void gap() {
    sampleFrozenForS = 0;
    gaugeFrozenForS = 0;
    jumpingForS = 0;
    zeroForS = 0;
    deadForS = 0;
    looseRampS = 0;
    shutForS = 0;
    atRoomForS = 0;
    gainPa = 0;
    pumpForS = 0;
    ventForS = 0;
    oxygenForS = 0;
    oxygenInVainS = 0;
    fillForS = 0;
    fillInVainS = 0;
    fillStillS = 0;
    stillForS = 0;
    rateForS = 0;
    sampleRateKPerS = 0;
    windowForS = 0;
  }

  void step(ControlState state, Readings readings, Truth truth, Audit audit) {
    raw = readings;
    sensors(audit);
    heat(truth);
    loose(truth, audit);
    gas(truth, audit);
    endedInVain(state);
    overdue(state, audit);
    told = state.outputs();
    waitsForPerson =
        state.phase() == BatchState.RUNNING
            && !state.presence().attended()
            && state.run() == null
            && state.lastMillis() > 0
            && state.setpointK() < 0
            && waits(state);
  }

  /**
   * An oxygen pulse just ended after its longest trial, and no gas had come. Of a gauge that is
   * frozen another row tells, and the pulse ends when control finds that out.
   */
  private void endedInVain(ControlState state) {
    boolean ends = told.isOn(Switch.OXYGEN) && !state.outputs().isOn(Switch.OXYGEN);
    pulseInVain = ends && gaugeFrozenForS == 0 && oxygenInVainS >= PULSE_TRIED_S;
  }

  /** A step begins its time anew although it goes on: it was over its limit. */
  private void overdue(ControlState state, Audit audit) {
    boolean again = state.stepS() < stepBeforeS && audit.position() == positionBefore;
    stepOverdue = again && leftBeforeS > -TICK_S - 1e-9 && state.phase() == BatchState.RUNNING;
    stepBeforeS = state.stepS();
    positionBefore = audit.position();
    leftBeforeS = audit.overLimitS();
  }

  private double waitedS;

  private boolean waits(ControlState state) {
    waitedS = state.run() == null ? waitedS + TICK_S : 0;
    return waitedS > 1;
  }

  private void sensors(Audit audit) {
    int lostRow = audit.row("sample temperature lost");
    boolean sampleGood = raw.isGood(Channel.SAMPLE_TEMPERATURE);
    sampleFrozenForS = count(sampleGood && is(Fault.SAMPLE_THERMOCOUPLE_FROZEN), sampleFrozenForS);
    boolean gaugeGood = raw.isGood(Channel.VESSEL_PRESSURE);
    gaugeFrozenForS = count(gaugeGood && is(Fault.PRESSURE_GAUGE_FROZEN), gaugeFrozenForS);
    boolean jumps =
        bench.severity(Fault.SAMPLE_THERMOCOUPLE_JUMPING) > 0.5
            && !is(Fault.SAMPLE_THERMOCOUPLE_FROZEN);
    // Between two jumps it may be reset; the next one is then seen anew.
    boolean lost = lostRow >= 0 && audit.isActive(lostRow);
    jumpingForS = count(jumps && !(wasLost && !lost), jumpingForS);
    wasLost = lost;
  }

  private boolean is(Fault fault) {
    return bench.hasFault(fault);
  }

  private static double count(boolean holds, double forS) {
    return holds ? forS + TICK_S : 0;
  }

  /** Whether nothing falsifies the channel, so that a raw value may be taken at its word. */
  boolean believed(Channel channel) {
    return switch (channel) {
      case SAMPLE_TEMPERATURE ->
          !is(Fault.SAMPLE_THERMOCOUPLE_FROZEN) && !is(Fault.SAMPLE_THERMOCOUPLE_JUMPING);
      case VESSEL_PRESSURE -> !is(Fault.PRESSURE_GAUGE_FROZEN);
      default -> true;
    };
  }

  /** Whether control can see sample and oven as they are. */
  boolean tellsSampleAndOven() {
    return raw.isGood(Channel.SAMPLE_TEMPERATURE)
        && raw.isGood(Channel.OVEN_TEMPERATURE)
        && raw.isGood(Channel.VESSEL_PRESSURE)
        && gaugeFrozenForS == 0
        && sampleFrozenForS == 0
        && !is(Fault.SAMPLE_THERMOCOUPLE_JUMPING)
        && !is(Fault.SAMPLE_THERMOCOUPLE_DETACHED)
        && !is(Fault.SAMPLE_THERMOCOUPLE_SHORT)
        && !is(Fault.OVEN_THERMOCOUPLE_DRIFT);
  }

  boolean tellsGas() {
    return tellsSampleAndOven() && !bench.isVesselOpen();
  }

  private void heat(Truth truth) {
    boolean zero = told.heaterPerMille() == 0 && !told.isOn(Switch.HEATER);
    boolean steady = zero && tellsSampleAndOven();
    zeroForS = count(steady, zeroForS);
    boolean old = zeroForS - coolestAtS >= COOLEST_S;
    if (zeroForS <= 65 || old || truth.wallK() < coolestWallK) {
      coolestWallK = truth.wallK();
      coolestAtS = zeroForS;
    }
    boolean dead =
        told.heaterPerMille() >= 950
            && bench.severity(Fault.HEATER_DEAD) >= 1
            && tellsSampleAndOven();
    if (!dead || deadForS == 0) {
      deadFromK = truth.wallK();
    }
    deadForS = count(dead && truth.wallK() <= deadFromK + 1, deadForS);
    rateForS += TICK_S;
    if (rateForS >= RATE_S) {
      sampleRateKPerS = tellsSampleAndOven() ? (truth.sampleK() - rateFromK) / rateForS : 0;
      rateForS = 0;
      rateFromK = truth.sampleK();
    }
  }

  /** Time in a brisk ramp with a sensor that has slipped, after control had learned its lag. */
  private void loose(Truth truth, Audit audit) {
    boolean slipped = bench.severity(Fault.SAMPLE_THERMOCOUPLE_DETACHED) >= 0.95;
    if (!slipped) {
      knewLag = audit.knowsLag();
      knewLagAtK = audit.lagLearnedAtK();
    }
    boolean told =
        slipped
            && knewLag
            && raw.isGood(Channel.SAMPLE_TEMPERATURE)
            && !is(Fault.SAMPLE_THERMOCOUPLE_JUMPING)
            && !is(Fault.SAMPLE_THERMOCOUPLE_SHORT)
            && !is(Fault.SAMPLE_THERMOCOUPLE_FROZEN)
            && !is(Fault.OVEN_THERMOCOUPLE_DRIFT);
    windowForS += TICK_S;
    if (!told) {
      looseRampS = 0;
    }
    if (windowForS >= RAMP_WINDOW_S) {
      double movedK = truth.wallK() - windowWallK;
      boolean brisk = movedK > 5.5 && movedK < 13;
      double behindK = truth.wallK() - truth.sampleK() - LOOSE_HIDDEN_K_PER_W * truth.heatRateW();
      double shownK =
          raw.valueOr(Channel.OVEN_TEMPERATURE, 0) - raw.valueOr(Channel.SAMPLE_TEMPERATURE, 0);
      boolean tells =
          behindK > LOOSE_TIMES * shownK
              && behindK > shownK + LOOSE_APART_K
              && raw.valueOr(Channel.SAMPLE_TEMPERATURE, 0) - knewLagAtK < LOOSE_COMPARABLE_K;
      looseRampS = told && brisk && tells ? looseRampS + windowForS : 0;
      windowForS = 0;
      windowWallK = truth.wallK();
    }
  }

  private void gas(Truth truth, Audit audit) {
    int comesIn = audit.row("gas comes in");
    double pressurePa = raw.valueOr(Channel.VESSEL_PRESSURE, 0);
    boolean oxygen = told.isOn(Switch.OXYGEN);
    boolean inert = told.isOn(Switch.INERT);
    boolean vent = told.isOn(Switch.VENT);
    boolean pump = told.isOn(Switch.PUMP) && told.isOn(Switch.VACUUM);
    boolean shut = !oxygen && !inert && !vent && !pump && tellsGas();
    shutForS = count(shut, shutForS);
    double mol = truth.oxygenMol() + truth.inertMol();
    if (shutForS < 3 || mol < shutMol || shutForS - markedS >= MARK_S) {
      shutMol = mol;
      markedS = shutForS;
      markWallK = truth.wallK();
      markSampleK = truth.sampleK();
    }
    double perMol = mol > 0 ? truth.pressurePa() / mol : 0;
    gainPa = shutForS < 3 ? 0 : (mol - shutMol) * perMol - warmingPa(truth);
    double roomPa = raw.valueOr(Channel.ROOM_PRESSURE, 101_300);
    overRoomPa = truth.pressurePa() - roomPa;
    boolean cameIn = comesIn >= 0 && audit.isActive(comesIn);
    boolean atRoom = StrictMath.abs(pressurePa - roomPa) < 150 && cameIn;
    atRoomForS = count(shut && atRoom, atRoomForS);

    oxygenForS = count(oxygen && raw.isGood(Channel.VESSEL_PRESSURE), oxygenForS);
    if (oxygenForS <= TICK_S) {
      oxygenFromPa = pressurePa;
    }
    boolean vain = oxygenForS > 0 && pressurePa < oxygenFromPa + 90;
    oxygenInVainS = vain ? oxygenForS : 0;

    boolean fills = inert && !vent && !pump && !oxygen && raw.isGood(Channel.VESSEL_PRESSURE);
    fillForS = count(fills, fillForS);
    if (fillForS <= TICK_S) {
      fillFromPa = pressurePa;
    }
    boolean emptyFill = pressurePa < fillFromPa + 300 && roomPa - fillFromPa > FILL_BELOW_ROOM_PA;
    fillInVainS = emptyFill && tellsSampleAndOvenForFill() ? fillForS : 0;
    still(fills && tellsSampleAndOvenForFill(), truth, roomPa);
    pumpForS =
        count(pump && tellsSampleAndOven() && bench.severity(Fault.PUMP_FAILED) > 0.995, pumpForS);
    ventForS =
        count(
            vent && !inert && tellsSampleAndOven() && bench.severity(Fault.VENT_BLOCKED) > 0.999,
            ventForS);
  }

  /**
   * How long a fill has brought the plant no 5 mbar. Control's marks lie elsewhere, so that it may
   * begin its time anew within ours, and one of its rises may take as long as two of ours.
   */
  private void still(boolean fills, Truth truth, double roomPa) {
    double aheadK = truth.sampleK() - truth.wallK();
    stillForS = count(fills, stillForS);
    boolean begins = stillForS <= TICK_S;
    boolean came = truth.pressurePa() >= stillFromPa + FILL_PA;
    if (begins) {
      slowestFillS = 0;
    } else if (came) {
      slowestFillS = StrictMath.max(slowestFillS, stillForS);
    }
    if (begins || came || aheadK - stillAheadK > FILL_TAKEN_UP_K) {
      stillFromPa = truth.pressurePa();
      stillAheadK = aheadK;
      stillForS = fills ? TICK_S : 0;
    }
    boolean isLong = stillForS > FILL_TIMES_SLOWER * slowestFillS;
    fillStillS = isLong && roomPa - stillFromPa > FILL_BELOW_ROOM_PA ? stillForS : 0;
  }

  private boolean tellsSampleAndOvenForFill() {
    return raw.isGood(Channel.SAMPLE_TEMPERATURE)
        && raw.isGood(Channel.OVEN_TEMPERATURE)
        && gaugeFrozenForS < 5
        && !is(Fault.SAMPLE_THERMOCOUPLE_FROZEN)
        && !is(Fault.SAMPLE_THERMOCOUPLE_JUMPING);
  }

  /** What control cannot tell from a warmer gas. */
  private double warmingPa(Truth truth) {
    double movedK =
        StrictMath.abs(truth.wallK() - markWallK) + StrictMath.abs(truth.sampleK() - markSampleK);
    return 1.2 * truth.pressurePa() * movedK / truth.wallK();
  }

  boolean pumpsInVain(Plan plan) {
    return pumpForS > 0
        && raw.valueOr(Channel.VESSEL_PRESSURE, 0) > 3000 + 3 * plan.rig().pumpUltimatePa();
  }

  boolean ventsInVain() {
    double roomPa = raw.valueOr(Channel.ROOM_PRESSURE, 101_300);
    return ventForS > 0 && raw.valueOr(Channel.VESSEL_PRESSURE, 0) > roomPa + 3000;
  }

  /** Far below what a soak keeps, with the sample at its temperature. */
  boolean staysLow(ControlState state, Audit audit, Plan plan) {
    if (state.phase() != BatchState.RUNNING || audit.soak() == null || !tellsSampleAndOven()) {
      return false;
    }
    boolean there = raw.value(Channel.SAMPLE_TEMPERATURE) > audit.soak().atK() - 3;
    double holdPa = audit.soak().common().holdPressurePa().orElse(0);
    return there && raw.value(Channel.VESSEL_PRESSURE) < 0.75 * holdPa;
  }
}
