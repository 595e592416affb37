package tarnish.controller.app;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import tarnish.controller.control.Audit;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Limits;
import tarnish.shared.vessel.PressureRating;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/**
 * What must be noticed: each oracle sees a cause by another way than control does, from what really
 * happens on the bench or from the raw readings, and says by when its row must be up.
 */
final class Oracles {
  private static final double TICK = 1e-6;

  private final Plan plan;
  private final Audit audit;
  private final OracleMemory memory;
  private final List<Oracle> oracles = new ArrayList<>();
  private final Map<String, Oracle> byRow = new HashMap<>();

  // The tick that is looked at.
  private ControlState state;
  private Turn turn;
  private List<Request> requests = List.of();
  private Readings raw;
  private Truth truth;
  private Limits limits;

  /** One row that must act, the condition, and how long it may take. */
  private static final class Oracle {
    final String row;
    final int index;
    final double withinS;
    final BooleanSupplier seen;
    double forS;

    Oracle(String row, int index, double withinS, BooleanSupplier seen) {
      this.row = row;
      this.index = index;
      this.withinS = withinS;
      this.seen = seen;
    }
  }

  Oracles(Plan plan, Plan whole, SimulatedRig bench) {
    this.plan = plan;
    audit = new Audit(plan);
    memory = new OracleMemory(bench);
    limitRows(whole);
    sensorRows(whole);
    peopleRows(whole);
    shellRows(whole);
    heatRows(whole);
    gasRows(whole);
  }

  void gap() {
    memory.gap();
    oracles.forEach(each -> each.forS = 0);
  }

  /** How long the plant has shown what a row looks for; NaN while it has not. */
  double sinceBreachS(String row) {
    Oracle oracle = byRow.get(row);
    return oracle == null || oracle.forS == 0 ? Double.NaN : oracle.forS;
  }

  String check(Turn now, List<Request> asked, Readings readings, Truth really) {
    turn = now;
    state = now.state();
    requests = asked;
    raw = readings;
    truth = really;
    limits = state.presence().attended() ? plan.rig().attended() : plan.rig().unattended();
    audit.of(state);
    memory.step(state, readings, really, audit);
    double tickS = plan.rig().tickMillis() / 1000.0;
    for (int i = 0; i < oracles.size(); i++) {
      Oracle each = oracles.get(i);
      each.forS = each.seen.getAsBoolean() ? each.forS + tickS : 0;
      if (each.forS > each.withinS + TICK && !isUp(each)) {
        return "'" + each.row + "' did not act within " + each.withinS + " s";
      }
    }
    return "";
  }

  private boolean isUp(Oracle oracle) {
    return oracle.index >= 0 && audit.isActive(oracle.index);
  }

  private void add(Plan whole, String row, double withinS, BooleanSupplier seen) {
    if (new Audit(whole).row(row) >= 0) {
      Oracle oracle = new Oracle(row, audit.row(row), withinS, seen);
      oracles.add(oracle);
      byRow.put(row, oracle);
    }
  }

  private void limitRows(Plan whole) {
    over(whole, "sample too hot", Channel.SAMPLE_TEMPERATURE);
    over(whole, "oven too hot", Channel.OVEN_TEMPERATURE);
    over(whole, "second oven sensor too hot", Channel.OVEN_TEMPERATURE_PAIR);
    over(whole, "seal too hot", Channel.SEAL_TEMPERATURE);
    over(whole, "pressure too high", Channel.VESSEL_PRESSURE);
    over(whole, "second gauge pressure too high", Channel.VESSEL_PRESSURE_PAIR);
    add(whole, "room oxygen high", 0.5, () -> above(Channel.ROOM_OXYGEN, 0.235));
    add(whole, "room oxygen low", 0.5, () -> below(Channel.ROOM_OXYGEN, 0.195));
    double emptyPa = 0.58 * plan.rig().oxygen().supplyPressurePa();
    add(whole, "oxygen supply empty", 6, () -> below(Channel.SUPPLY_PRESSURE, emptyPa));
  }

  private void over(Plan whole, String row, Channel channel) {
    add(
        whole,
        row,
        0.5,
        () -> memory.believed(channel) && !audit.doubts(channel) && above(channel, limit(channel)));
  }

  private double limit(Channel channel) {
    return switch (channel) {
      case SAMPLE_TEMPERATURE -> limits.sampleMaxK();
      case OVEN_TEMPERATURE, OVEN_TEMPERATURE_PAIR -> limits.ovenMaxK();
      case SEAL_TEMPERATURE -> limits.sealMaxK();
      // An open vessel stands at the room's pressure, whoever is there.
      default -> (audit.mayBeOpen() ? plan.rig().attended() : limits).pressureMaxPa();
    };
  }

  private boolean above(Channel channel, double limit) {
    return raw.isGood(channel) && raw.value(channel) > limit;
  }

  private boolean below(Channel channel, double limit) {
    return raw.isGood(channel) && raw.value(channel) < limit;
  }

  private void sensorRows(Plan whole) {
    for (Channel channel :
        List.of(
            Channel.OVEN_TEMPERATURE,
            Channel.OVEN_TEMPERATURE_PAIR,
            Channel.SEAL_TEMPERATURE,
            Channel.VESSEL_PRESSURE_PAIR)) {
      add(whole, channel.words() + " lost", 1, () -> isBad(channel));
    }
    add(whole, "room oxygen lost", 5, () -> isBad(Channel.ROOM_OXYGEN));
    add(
        whole,
        "sample temperature lost",
        1,
        () -> isBad(Channel.SAMPLE_TEMPERATURE) || memory.sampleFrozenForS > 40 || jumps());
    add(
        whole,
        "vessel pressure lost",
        1,
        () -> isBad(Channel.VESSEL_PRESSURE) || memory.gaugeFrozenForS > 18);
    add(whole, "oven sensors disagree", 3, () -> apart(Channel.OVEN_TEMPERATURE, 26));
    add(whole, "gauges disagree", 3, () -> apart(Channel.VESSEL_PRESSURE, 1500));
  }

  private boolean isBad(Channel channel) {
    return raw.isFitted(channel) && !raw.isGood(channel);
  }

  private boolean jumps() {
    return memory.jumpingForS > 60;
  }

  /** Two gains of 0.2 % each may be off by four deviations, in opposite ways, and be sound. */
  private static final double GAINS_APART = 0.012;

  private boolean apart(Channel channel, double by) {
    Channel pair =
        channel == Channel.OVEN_TEMPERATURE
            ? Channel.OVEN_TEMPERATURE_PAIR
            : Channel.VESSEL_PRESSURE_PAIR;
    return raw.isGood(channel)
        && raw.isGood(pair)
        && memory.believed(channel)
        && StrictMath.abs(raw.value(channel) - raw.value(pair))
            > by + GAINS_APART * raw.value(channel);
  }

  private void peopleRows(Plan whole) {
    add(whole, "emergency stop", 0, () -> isOpen(Channel.EMERGENCY_STOP));
    add(whole, "door open", 0.5, () -> isOpen(Channel.DOOR));
    add(whole, "operator overdue", 0.25, () -> state.presence().overdue());
    add(whole, "interlock defeated", 0.25, () -> audit.anyDefeated());
    add(whole, "person needed", 1, () -> memory.waitsForPerson);
  }

  private boolean isOpen(Channel channel) {
    return !raw.isGood(channel) || raw.value(channel) < 0.5;
  }

  private void shellRows(Plan whole) {
    for (String row :
        List.of(
            InterlockTable.JOURNAL_NOT_WRITABLE,
            InterlockTable.CLOCK_LOST,
            InterlockTable.CLOCK_STEPPED)) {
      add(whole, row, 0, () -> isReported(row));
    }
    add(
        whole,
        "power returned",
        0,
        () ->
            requests.stream().anyMatch(r -> r instanceof Request.PowerReturned)
                && turn.events().stream().noneMatch(e -> e instanceof Event.Advisory));
    add(whole, "step overdue", 0, () -> memory.stepOverdue);
    add(
        whole,
        "leak test failed",
        0,
        () ->
            turn.events().stream()
                .anyMatch(e -> e instanceof Event.LeakTested tested && !tested.passed()));
    add(whole, "no pressure step", 0, () -> memory.pulseInVain);
    add(whole, "loop overrun", Double.MAX_VALUE, () -> false);
  }

  private boolean isReported(String row) {
    for (Request request : requests) {
      if (request instanceof Request.ShellTrouble trouble && trouble.alarm().equals(row)) {
        return true;
      }
    }
    return false;
  }

  private void heatRows(Plan whole) {
    add(
        whole,
        "heater stuck on",
        5,
        () ->
            memory.zeroForS > 60 && truth.wallK() > memory.coolestWallK + 8 && sampleIsNotHotter());
    add(whole, "heater dead", 10, () -> memory.deadForS > 250);
    add(
        whole,
        "runaway",
        10,
        () -> truth.sampleK() > truth.wallK() + 30 && memory.sampleRateKPerS > 0.4);
    add(whole, "sample sensor loose", 1, () -> memory.looseRampS > 600);
  }

  private boolean sampleIsNotHotter() {
    return truth.sampleK() < truth.wallK() && memory.tellsSampleAndOven();
  }

  /** What the glass may hold, with what gauge and thermocouples may be off. */
  private double glassPa() {
    double hottestK = StrictMath.max(truth.sampleK(), truth.wallK());
    return 1000 + 1.05 * PressureRating.allowedGaugePa(plan.rig().vessel(), hottestK);
  }

  private boolean tellsPressure() {
    return memory.tellsSampleAndOven()
        && !audit.doubts(Channel.SAMPLE_TEMPERATURE)
        && !audit.doubts(Channel.OVEN_TEMPERATURE)
        && !audit.doubts(Channel.VESSEL_PRESSURE);
  }

  /** Up to the room's pressure, a vessel that may be open may have been filled by the room. */
  private boolean tellsGas() {
    return memory.tellsGas() && (memory.overRoomPa > 3000 || !audit.mayBeOpen());
  }

  private void gasRows(Plan whole) {
    add(whole, "gas comes in", 2, () -> memory.gainPa > 2500 && tellsGas());
    add(
        whole,
        "supply valve passes",
        2,
        () -> memory.gainPa > 4000 && memory.overRoomPa > 4000 && tellsGas());
    add(whole, "vessel leaks", 60, () -> memory.atRoomForS > 60);
    add(whole, "pump fails", 25, () -> memory.pumpsInVain(plan));
    add(whole, "no filling", 0.5, () -> memory.fillInVainS > 5.5 || memory.fillStillS > 10.5);
    add(whole, "vent blocked", 11, () -> memory.ventsInVain());
    add(whole, "pressure low", 610, () -> memory.staysLow(state, audit, plan));
    add(whole, "glass over its rating", 1, () -> memory.overRoomPa > glassPa() && tellsPressure());
  }
}
