package tarnish.controller.app;

import java.util.List;
import tarnish.controller.control.AlarmState;
import tarnish.controller.control.Audit;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;
import tarnish.sim.Truth;

/** What must be true after every tick of every batch, whatever went wrong. */
final class Invariants {
  /** How far above its attended limit the plant may go before the trip has worked, in K. */
  static final double SAMPLE_OVER_K = 60;

  static final double OVEN_OVER_K = 60;

  /** A supply regulator that fails lets four times its pressure through. */
  static final double PRESSURE_SHARE = 4.1;

  /** Oxygen that no valve, uptake or gauge explains within one tick, in mol. */
  private static final double LEDGER_JUMP_MOL = 4e-4;

  private static final double TICK_S = 0.25;
  private static final double BOOKED_AFTER_S = 180;

  private static final List<Channel> BOOKED_BY =
      List.of(Channel.SAMPLE_TEMPERATURE, Channel.OVEN_TEMPERATURE, Channel.VESSEL_PRESSURE);

  private static final int HEATER = Audit.bit(Switch.HEATER);
  private static final int OXYGEN = Audit.bit(Switch.OXYGEN);
  private static final int HEARTBEAT = Audit.bit(Switch.HEARTBEAT);

  private final Plan plan;
  private final Audit before;
  private final Audit after;
  private final AlarmState[] alarms;
  private int firstOuts;
  private boolean holding;
  private int runsTripped;
  private double runawayK;
  private double blindS = BOOKED_AFTER_S;
  private boolean skipLedger = true;

  Invariants(Plan plan) {
    this.plan = plan;
    before = new Audit(plan);
    after = new Audit(plan);
    alarms = new AlarmState[after.rows()];
    java.util.Arrays.fill(alarms, AlarmState.NORMAL);
  }

  void gap() {
    skipLedger = true;
  }

  /**
   * A reaction that suddenly runs many times as fast burns what oxygen is there before any valve
   * can help: its adiabatic rise is what must be borne, and what pulses and pressures are capped
   * for.
   *
   * @param oxygenMol in the gas when it begins
   * @param sampleJPerK heat capacity of the sample with its boat
   */
  void runawayBegins(double oxygenMol, double sampleJPerK) {
    double enthalpy = plan.recipe().reactionEnthalpyJPerMolO2().orElse(0);
    runawayK = StrictMath.max(runawayK, oxygenMol * StrictMath.abs(enthalpy) / sampleJPerK);
  }

  String check(ControlState was, Turn turn, List<Request> requests, Readings raw, Truth truth) {
    ControlState is = turn.state();
    before.of(was);
    after.of(is);
    String found = outputs(turn.outputs(), is);
    found = found.isEmpty() ? latches(requests) : found;
    found = found.isEmpty() ? firstOut(turn, is) : found;
    found = found.isEmpty() ? people(is) : found;
    found = found.isEmpty() ? soak(raw, truth) : found;
    found = found.isEmpty() ? ledger(was, raw) : found;
    return found.isEmpty() ? plant(truth) : found;
  }

  private String outputs(Outputs outputs, ControlState is) {
    int withheld = after.withheldBits();
    if ((outputs.switches() & withheld) != 0) {
      return "an output is on without its permit: " + outputs;
    }
    if ((withheld & HEATER) != 0 && outputs.heaterPerMille() != 0) {
      return "the heater has a duty without its permit: " + outputs;
    }
    boolean works = (outputs.switches() & (HEATER | OXYGEN)) != 0 || outputs.heaterPerMille() > 0;
    if (works && is.phase() != BatchState.RUNNING) {
      return "heater or oxygen is on while the batch is " + is.phase().words();
    }
    boolean holdsBatch = after.anyHolding();
    if (works && holdsBatch) {
      return "heater or oxygen is on while a trip is up or latched";
    }
    boolean beats = (outputs.switches() & HEARTBEAT) != 0;
    if (beats && before.withheldBits() != 0 && (withheld & HEARTBEAT) != 0) {
      return "the heartbeat goes on although it is withheld";
    }
    runsTripped = is.phase() == BatchState.RUNNING && holdsBatch ? runsTripped + 1 : 0;
    // A trip that a step itself reports withholds the outputs at once and holds at the next tick.
    return runsTripped > 1 ? "the batch runs although a trip is up or latched" : "";
  }

  /** A latched trip is cleared by a reset and by nothing else. */
  private String latches(List<Request> requests) {
    for (int i = 0; i < alarms.length; i++) {
      AlarmState now = after.alarm(i);
      boolean cleared = now == AlarmState.NORMAL && alarms[i] != AlarmState.NORMAL;
      alarms[i] = now;
      if (cleared && after.isLatching(i) && !isReset(after.id(i), requests)) {
        return "the latched trip '" + after.id(i) + "' cleared by itself";
      }
    }
    return "";
  }

  private static boolean isReset(String row, List<Request> requests) {
    for (Request request : requests) {
      if (request instanceof Request.Reset reset && reset.alarm().equals(row)) {
        return true;
      }
    }
    return false;
  }

  /** From one clear bench to the next there is one first-out alarm, whatever follows it. */
  private String firstOut(Turn turn, ControlState is) {
    boolean now = after.anyHolding();
    if (!turn.events().isEmpty()) {
      for (Event event : turn.events()) {
        if (event instanceof Event.AlarmRaised raised && raised.firstOut()) {
          firstOuts++;
        }
      }
    }
    String found = "";
    if (firstOuts > 1) {
      found = firstOuts + " alarms are first out of one trip";
    } else if (now && !holding && firstOuts == 0) {
      found = "a trip without a first-out alarm";
    }
    if (!now) {
      firstOuts = 0;
    }
    holding = now;
    return found;
  }

  private String people(ControlState is) {
    return after.runsAttendedStep() && !is.presence().attended() && is.phase() == BatchState.RUNNING
        ? "a step that needs a person runs without one"
        : "";
  }

  private String soak(Readings raw, Truth truth) {
    double earnedS = after.soakInBandS() - before.soakInBandS();
    if (before.soakInBandS() < 0 || !(earnedS > 0)) {
      return "";
    }
    if (!raw.isGood(Channel.SAMPLE_TEMPERATURE)) {
      return "soak time was earned without a believable sample temperature";
    }
    double awayK = StrictMath.abs(raw.value(Channel.SAMPLE_TEMPERATURE) - after.soak().atK());
    return awayK <= after.soak().bandK() + 1e-9
        ? ""
        : "soak time was earned " + awayK + " K away from the soak";
  }

  /**
   * What the gauge did not show, or nobody looked at, is booked within minutes afterwards, a
   * runaway really is that fast, and a new zero of the gauge is a new reading of everything; these
   * are no jumps of the ledger. Nor is it one when a leak is found at last: gas that had come in
   * unseen was booked as oxygen given back, and is taken back in one entry that says so. Until the
   * leak is mended nothing at all may be booked.
   */
  private String ledger(ControlState was, Readings raw) {
    boolean gap = skipLedger && was.lastMillis() >= 0;
    boolean blind = isBlind(raw) || gap;
    blindS = blind ? 0 : blindS + TICK_S;
    boolean skip = skipLedger || blindS < BOOKED_AFTER_S || runawayK > 0 || was.lastMillis() < 0;
    skip |= after.gaugeZeroPa() != before.gaugeZeroPa();
    skip |= after.doubtsGas() && !before.doubtsGas();
    skipLedger = false;
    double jumpMol = StrictMath.abs(after.seenUptakeMol() - before.seenUptakeMol());
    if (before.doubtsGas() && after.doubtsGas() && jumpMol != 0) {
      return "uptake was counted although gas comes or goes past the valves";
    }
    if (!skip && !(jumpMol <= LEDGER_JUMP_MOL)) {
      return "the uptake jumped by " + jumpMol + " mol in one tick";
    }
    return "";
  }

  private boolean isBlind(Readings raw) {
    for (Channel channel : BOOKED_BY) {
      if (!raw.isGood(channel) || after.doubts(channel)) {
        return true;
      }
    }
    return false;
  }

  private String plant(Truth truth) {
    Limits limits = plan.rig().attended();
    if (!(truth.sampleK() <= limits.sampleMaxK() + SAMPLE_OVER_K + runawayK)) {
      return "the sample is at " + truth.sampleK() + " K";
    }
    if (!(truth.wallK() <= limits.ovenMaxK() + OVEN_OVER_K)) {
      return "the oven is at " + truth.wallK() + " K";
    }
    double mostPa = PRESSURE_SHARE * plan.rig().oxygen().supplyPressurePa();
    return truth.pressurePa() <= mostPa ? "" : "the vessel is at " + truth.pressurePa() + " Pa";
  }
}
