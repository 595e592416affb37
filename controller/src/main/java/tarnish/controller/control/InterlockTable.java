package tarnish.controller.control;

import static tarnish.controller.control.InterlockRow.Priority.HIGH;
import static tarnish.controller.control.InterlockRow.Priority.LOW;
import static tarnish.controller.control.InterlockRow.Priority.MEDIUM;
import static tarnish.controller.control.InterlockRow.bit;
import static tarnish.controller.control.RowList.ALL_GAS;
import static tarnish.controller.control.RowList.HEAT;
import static tarnish.controller.control.RowList.HEAT_AND_OXYGEN;
import static tarnish.controller.control.RowList.HEAT_BY_RELAY;
import static tarnish.controller.control.RowList.SUPPLIES;

import java.util.List;
import java.util.function.ToDoubleFunction;
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
  static final String PERSON_NEEDED = "person needed";
  static final String GAS_COMES_IN = "gas comes in";
  static final String VESSEL_LEAKS = "vessel leaks";

  /** Raised by the shell when readings and events can no longer be kept. */
  public static final String JOURNAL_NOT_WRITABLE = "journal not writable";

  /** Raised by the shell when a device no longer confirms the outputs it was given. */
  public static final String OUTPUTS_NOT_CONFIRMED = "outputs not confirmed";

  /** Raised by the shell when the loop did not come for a while. */
  public static final String LOOP_OVERRUN = "loop overrun";

  /** Raised by the shell when the clock that measures time cannot be trusted. */
  public static final String CLOCK_LOST = "clock lost";

  /** Raised by the shell when the clock that names the time of day was changed. */
  public static final String CLOCK_STEPPED = "clock stepped";

  /**
   * Debounce that hides one wild sample but no real excursion: the oven moves slower than 1 K/s.
   */
  private static final double SHORT_S = 0.5;

  private static final double SENSOR_S = 1.0;
  private static final double LOOP_LATE_S = 2.0;
  private static final double AIR_S = 5;

  /** Bounds of a non-hazardous atmosphere, 29 CFR 1910.146(b). */
  private static final double ROOM_OXYGEN_MAX = 0.235;

  private static final double ROOM_OXYGEN_MIN = 0.195;
  private static final double ROOM_OXYGEN_DEADBAND = 0.0005;

  private static final double DEADBAND_K = 1;
  private static final double DEADBAND_PA = 500;

  private final RowList list;

  private InterlockTable(RigDescription rig) {
    list = new RowList(rig);
    people();
    room();
    limits();
    sensors();
    SignRows.add(list);
    loop();
    steps();
  }

  static List<InterlockRow> of(RigDescription rig) {
    return new InterlockTable(rig).list.rows();
  }

  /** The rows that this rig cannot have, with what remains. */
  public static List<MissingRow> missing(RigDescription rig) {
    return new InterlockTable(rig).list.missing();
  }

  /** The names of all rows that this rig has. */
  public static List<String> names(RigDescription rig) {
    return of(rig).stream().map(InterlockRow::id).toList();
  }

  private void people() {
    list.trip(
        "emergency stop",
        new Cause.ContactOpen(Channel.EMERGENCY_STOP),
        0,
        HEAT_BY_RELAY | ALL_GAS,
        HIGH,
        "The emergency stop was pressed, or its circuit is broken.",
        "Make the bench safe, release the stop, then reset with a reason.");
    if (list.needs(Channel.DOOR, "door open", "the oven's own door switch, if it has one")) {
      list.passing(
          "door open",
          new Cause.ContactOpen(Channel.DOOR),
          SHORT_S,
          HEAT,
          MEDIUM,
          "The oven door is open.",
          "Close the door; heating goes on by itself.");
    }
    list.passing(
        "operator overdue",
        new Cause.Sign(Symptom.OPERATOR_OVERDUE, "check-in has run out"),
        0,
        0,
        MEDIUM,
        "Who was checked in has neither checked out nor in again.",
        "See whether the person is well; check in, or out for them.");
    list.passing(
        PERSON_NEEDED,
        new Cause.Sign(Symptom.PERSON_NEEDED, "the next step needs a person"),
        SHORT_S,
        0,
        LOW,
        "The next step needs a person at the bench; the heater is off until one checks in.",
        "Check in; the batch goes on by itself.");
    list.passing(
        "interlock defeated",
        new Cause.Sign(Symptom.INTERLOCK_DEFEATED, "an interlock is defeated"),
        0,
        0,
        MEDIUM,
        "An interlock is defeated: it does not act.",
        "Stay at the bench and enforce it again as soon as you can.");
  }

  private void room() {
    String remains = "the hard-wired room monitor, if one is fitted, and airing";
    if (!list.needs(Channel.ROOM_OXYGEN, "room oxygen high", remains)) {
      list.needs(Channel.ROOM_OXYGEN, "room oxygen low", remains);
      return;
    }
    list.trip(
        "room oxygen high",
        new Cause.Above(Channel.ROOM_OXYGEN, limits -> ROOM_OXYGEN_MAX, ROOM_OXYGEN_DEADBAND),
        SHORT_S,
        HEAT_AND_OXYGEN,
        HIGH,
        "The air of the room holds too much oxygen: oxygen is escaping.",
        "Leave flames and sparks off, air the room, shut the bottle, find the leak.");
    list.trip(
        "room oxygen low",
        new Cause.Below(Channel.ROOM_OXYGEN, ROOM_OXYGEN_MIN, ROOM_OXYGEN_DEADBAND),
        SHORT_S,
        SUPPLIES,
        HIGH,
        "The air of the room holds too little oxygen: inert gas is escaping, danger to life.",
        "Leave the room, air it, shut the inert bottle from outside or with a helper.");
    list.trip(
        "room oxygen lost",
        new Cause.BadReading(Channel.ROOM_OXYGEN),
        AIR_S,
        bit(Switch.OXYGEN) | bit(Switch.INERT),
        MEDIUM,
        "The room oxygen gives no believable value.",
        "Air the room, check the sensor; reset when the value is back.");
  }

  private void limits() {
    over("sample too hot", Channel.SAMPLE_TEMPERATURE, Limits::sampleMaxK, HEAT_BY_RELAY);
    over("oven too hot", Channel.OVEN_TEMPERATURE, Limits::ovenMaxK, HEAT_BY_RELAY);
    over(
        "second oven sensor too hot",
        Channel.OVEN_TEMPERATURE_PAIR,
        Limits::ovenMaxK,
        HEAT_BY_RELAY);
    over("seal too hot", Channel.SEAL_TEMPERATURE, Limits::sealMaxK, HEAT_AND_OXYGEN);
    over("pressure too high", Channel.VESSEL_PRESSURE, Limits::pressureMaxPa, SUPPLIES);
    over(
        "second gauge pressure too high",
        Channel.VESSEL_PRESSURE_PAIR,
        Limits::pressureMaxPa,
        SUPPLIES);
    list.trip(
        "glass over its rating",
        new Cause.AboveGlassRating(list.rig.vessel()),
        SHORT_S,
        SUPPLIES,
        HIGH,
        "The vessel holds more overpressure than its glass is rated for at this temperature.",
        "Stay behind the shield; let it cool and relieve it before anybody comes near.");
  }

  private void over(String id, Channel channel, ToDoubleFunction<Limits> limit, int effects) {
    boolean temperature = channel.kind() == Channel.Kind.TEMPERATURE;
    String remains =
        switch (channel) {
          case SEAL_TEMPERATURE -> "'oven too hot', and a seal that stands outside the oven";
          case OVEN_TEMPERATURE_PAIR -> "'oven too hot' by the one sensor";
          case VESSEL_PRESSURE_PAIR -> "'pressure too high' by the one gauge, and the relief valve";
          default -> "the hard-wired limit";
        };
    if (list.needs(channel, id, remains)) {
      list.trip(
          id,
          new Cause.Above(channel, limit, temperature ? DEADBAND_K : DEADBAND_PA),
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
            Channel.OVEN_TEMPERATURE_PAIR,
            Channel.SEAL_TEMPERATURE,
            Channel.VESSEL_PRESSURE,
            Channel.VESSEL_PRESSURE_PAIR)) {
      if (list.fitted(channel)) {
        list.trip(
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
    list.trip(
        LOOP_OVERRUN,
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
    if (list.rig.connection() == RigDescription.Connection.DEVICES) {
      reported(
          OUTPUTS_NOT_CONFIRMED,
          "a device did not confirm its outputs for 2 s",
          "Outputs may not be what they were told to be.",
          "See with your own eyes what is on; mend the device or its cable; reset and restart.");
    }
    reported(
        CLOCK_LOST,
        "the clock that measures time stands or runs wrong",
        "The clock that measures time cannot be trusted: no soak, rate or check-in can be either.",
        "Restart the machine; reset and restart when its clock runs again.");
    list.passing(
        CLOCK_STEPPED,
        new Cause.Reported("the time of day was changed by more than a minute"),
        0,
        0,
        LOW,
        "The time of day of this machine was changed; no soak and no rate is touched.",
        "Note it for the record; see why the clock was wrong.");
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
    list.trip(id, new Cause.Reported(when), 0, HEAT_AND_OXYGEN, MEDIUM, what, todo);
  }
}
