package tarnish.controller.control;

import static tarnish.controller.control.InterlockRow.Priority.HIGH;
import static tarnish.controller.control.InterlockRow.Priority.MEDIUM;
import static tarnish.controller.control.InterlockRow.bit;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import tarnish.controller.control.InterlockRow.Priority;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** The cause-and-effect table of a rig. */
public final class InterlockTable {
  static final String STEP_OVERDUE = "step overdue";
  static final String LEAK_TEST_FAILED = "leak test failed";
  static final String NO_PRESSURE_STEP = "no pressure step";
  static final String POWER_RETURNED = "power returned";

  /** Raised by the shell when readings and events can no longer be kept. */
  public static final String JOURNAL_NOT_WRITABLE = "journal not writable";

  /** Raised by the shell when a device no longer confirms the outputs it was given. */
  public static final String OUTPUTS_NOT_CONFIRMED = "outputs not confirmed";

  private static final int HEAT = bit(Switch.HEATER);
  private static final int HEAT_AND_OXYGEN = HEAT | bit(Switch.OXYGEN);
  private static final int ALL_GAS =
      bit(Switch.OXYGEN) | bit(Switch.INERT) | bit(Switch.VACUUM) | bit(Switch.PUMP);

  /**
   * Debounce that hides one wild sample but no real excursion: the oven moves slower than 1 K/s.
   */
  private static final double SHORT_S = 0.5;

  private static final double SENSOR_S = 1.0;
  private static final double LOOP_LATE_S = 2.0;

  /** Upper bound of a non-hazardous atmosphere, 29 CFR 1910.146(b). */
  private static final double ROOM_OXYGEN_MAX = 0.235;

  private final List<InterlockRow> rows = new ArrayList<>();
  private final RigDescription rig;

  private InterlockTable(RigDescription rig) {
    this.rig = rig;
  }

  static List<InterlockRow> of(RigDescription rig) {
    InterlockTable table = new InterlockTable(rig);
    table.people();
    table.limits();
    table.sensors();
    table.loop();
    table.steps();
    return List.copyOf(table.rows);
  }

  private void people() {
    trip(
        "emergency stop",
        new Cause.ContactOpen(Channel.EMERGENCY_STOP),
        0,
        HEAT | ALL_GAS,
        HIGH,
        "The emergency stop was pressed, or its circuit is broken.",
        "Make the bench safe, release the stop, then reset with a reason.");
    if (fitted(Channel.DOOR)) {
      add(
          "door open",
          new Cause.ContactOpen(Channel.DOOR),
          SHORT_S,
          HEAT,
          false,
          false,
          MEDIUM,
          "The oven door is open.",
          "Close the door; heating goes on by itself.");
    }
    if (fitted(Channel.ROOM_OXYGEN)) {
      trip(
          "room oxygen high",
          new Cause.Above(Channel.ROOM_OXYGEN, limits -> ROOM_OXYGEN_MAX),
          SHORT_S,
          HEAT_AND_OXYGEN,
          HIGH,
          "The air of the room holds too much oxygen: oxygen is escaping.",
          "Leave flames and sparks off, air the room, shut the bottle, find the leak.");
    }
  }

  private void limits() {
    over("sample too hot", Channel.SAMPLE_TEMPERATURE, Limits::sampleMaxK, HEAT_AND_OXYGEN);
    over("oven too hot", Channel.OVEN_TEMPERATURE, Limits::ovenMaxK, HEAT_AND_OXYGEN);
    over("second oven sensor too hot", Channel.OVEN_TEMPERATURE_PAIR, Limits::ovenMaxK, HEAT);
    over("seal too hot", Channel.SEAL_TEMPERATURE, Limits::sealMaxK, HEAT_AND_OXYGEN);
    int heatAndSupply = HEAT_AND_OXYGEN | bit(Switch.INERT);
    over("pressure too high", Channel.VESSEL_PRESSURE, Limits::pressureMaxPa, heatAndSupply);
    over(
        "second gauge pressure too high",
        Channel.VESSEL_PRESSURE_PAIR,
        Limits::pressureMaxPa,
        heatAndSupply);
  }

  private void over(String id, Channel channel, ToDoubleFunction<Limits> limit, int effects) {
    if (fitted(channel)) {
      trip(
          id,
          new Cause.Above(channel, limit),
          SHORT_S,
          effects,
          HIGH,
          "The " + channel.words() + " went above its limit.",
          "Stay behind the shield until it has come down; find out why before you reset.");
    }
  }

  private void sensors() {
    for (Channel channel :
        List.of(
            Channel.SAMPLE_TEMPERATURE,
            Channel.OVEN_TEMPERATURE,
            Channel.SEAL_TEMPERATURE,
            Channel.VESSEL_PRESSURE)) {
      if (fitted(channel)) {
        trip(
            channel.words() + " lost",
            new Cause.BadReading(channel),
            SENSOR_S,
            HEAT_AND_OXYGEN,
            HIGH,
            "The " + channel.words() + " gives no believable value.",
            "Check sensor, cable and connector; reset when the value is back.");
      }
    }
  }

  private void loop() {
    trip(
        "loop overrun",
        new Cause.LoopLate(LOOP_LATE_S),
        0,
        HEAT_AND_OXYGEN,
        HIGH,
        "The control loop came too late.",
        "See what else the machine was doing; reset and restart when it is quiet.");
    reported(
        POWER_RETURNED,
        "nobody was in control for a while",
        "Power or the service failed and is back; the batch kept what it had earned.",
        "Look at the bench and the readings, reset with a reason, then restart or stop.");
    reported(
        JOURNAL_NOT_WRITABLE,
        "a reading or event could not be written",
        "The journal cannot be written: what happens now may be missing from the record.",
        "Free or mend the disk; reset and restart when it can be written again.");
    if (rig.connection() == RigDescription.Connection.DEVICES) {
      reported(
          OUTPUTS_NOT_CONFIRMED,
          "a device did not confirm its outputs for 2 s",
          "Outputs may not be what they were told to be.",
          "See with your own eyes what is on; mend the device or its cable; reset and restart.");
    }
  }

  private void steps() {
    reported(
        STEP_OVERDUE,
        "step longer than its time limit",
        "The step did not reach its end within its time limit.",
        "Find out why (leak, pump, empty bottle, weak heater), then reset and restart or stop.");
    reported(
        LEAK_TEST_FAILED,
        "pressure rises faster than the recipe allows",
        "The vessel is not tight enough for this recipe.",
        "Check seals, clamps and valves, then reset and restart: the test is done again.");
    reported(
        NO_PRESSURE_STEP,
        "oxygen valve open without a rise in pressure",
        "The oxygen valve was opened and the pressure did not rise.",
        "Check the bottle, its regulator and the valve, then reset and restart.");
  }

  private void reported(String id, String when, String what, String todo) {
    trip(id, new Cause.Reported(when), 0, HEAT_AND_OXYGEN, MEDIUM, what, todo);
  }

  private void trip(
      String id,
      Cause cause,
      double delayS,
      int effects,
      Priority priority,
      String what,
      String todo) {
    add(id, cause, delayS, effects, true, true, priority, what, todo);
  }

  private void add(
      String id,
      Cause cause,
      double delayS,
      int effects,
      boolean holdsBatch,
      boolean latching,
      Priority priority,
      String what,
      String todo) {
    rows.add(
        new InterlockRow(id, cause, delayS, effects, holdsBatch, latching, priority, what, todo));
  }

  private boolean fitted(Channel channel) {
    return rig.sensor(channel).isPresent();
  }
}
