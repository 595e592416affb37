package tarnish.controller.control;

import static tarnish.controller.control.InterlockRow.Priority.HIGH;
import static tarnish.controller.control.InterlockRow.Priority.MEDIUM;
import static tarnish.controller.control.RowList.HEAT_AND_OXYGEN;
import static tarnish.controller.control.RowList.HEAT_BY_RELAY;
import static tarnish.controller.control.RowList.SUPPLIES;

import java.util.Set;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.SensorDescription;

/** The rows that tell a fault by what it does to heat and gas. */
final class SignRows {
  private static final double BELIEVE_S = 0.5;
  private static final double PAIR_S = 3;
  private static final double SUPPLY_S = 5;

  /** Share of its usual pressure below which a supply counts as empty. */
  private static final double EMPTY_SHARE = 0.6;

  /** Coverage of the allowed difference of a pair: common practice. */
  private static final double COVERAGE = 4;

  /** Two sensors in one oven feel different places while it heats, in K: common practice. */
  private static final double PLACES_K = 15;

  private static final double LOW_S = 600;

  private SignRows() {}

  static void add(RowList list) {
    heat(list);
    gas(list);
    pairs(list);
    supply(list);
    stillSensors(list);
  }

  private static void heat(RowList list) {
    list.trip(
        "runaway",
        new Cause.Sign(Symptom.RUNAWAY, "sample ahead of the oven and climbing, or too fast"),
        0,
        HEAT_BY_RELAY,
        HIGH,
        "The sample heats itself faster than the oven can: the reaction runs away.",
        "Stay behind the shield. No oxygen goes in; wait until it has cooled, then find out why.");
    list.trip(
        "heater stuck on",
        new Cause.Sign(Symptom.HEATER_STUCK_ON, "oven rises by 4 K at zero output"),
        BELIEVE_S,
        HEAT_BY_RELAY,
        HIGH,
        "The oven heats although its heater is told to be off: its relay may be welded.",
        "Switch the heater off at its main switch; have the relay changed before you reset.");
    list.trip(
        "heater dead",
        new Cause.Sign(Symptom.HEATER_DEAD, "oven rises by less than 3 K in 4 min at full output"),
        0,
        HEAT_AND_OXYGEN,
        MEDIUM,
        "The oven does not get hotter although its heater is told to give all it may.",
        "Check fuse, heater and relay; reset and restart when it heats again.");
    list.trip(
        "sample sensor loose",
        new Cause.Sign(
            Symptom.SAMPLE_SENSOR_LOOSE, "lag behind the oven changed by a factor of 2.5"),
        0,
        HEAT_AND_OXYGEN,
        HIGH,
        "The sample temperature no longer follows the oven as it did: its sensor may have slipped.",
        "Let it cool, see that the thermocouple sits in its place, then reset and restart.");
  }

  private static void gas(RowList list) {
    list.trip(
        InterlockTable.GAS_COMES_IN,
        new Cause.Sign(
            Symptom.GAS_COMES_IN, "every valve shut: up 8 mbar, or 1.5 mbar in 5 min, unexplained"),
        BELIEVE_S,
        SUPPLIES,
        HIGH,
        "The pressure rises with every valve shut: a valve passes, or the vessel leaks.",
        "Shut the bottles. If it stops at room pressure the vessel leaks, else a valve passes.");
    list.trip(
        "supply valve passes",
        new Cause.Sign(Symptom.SUPPLY_PASSES, "the same, going on past room pressure"),
        BELIEVE_S,
        SUPPLIES,
        HIGH,
        "The pressure rises past that of the room with every valve shut: a supply valve passes.",
        "Shut the bottles by hand; change the valve before you reset.");
    list.trip(
        InterlockTable.VESSEL_LEAKS,
        new Cause.Sign(
            Symptom.VESSEL_LEAKS,
            "the same, coming to rest at room pressure; or staying there while it warms or cools"),
        BELIEVE_S,
        SUPPLIES,
        HIGH,
        "The vessel has gone to room pressure by itself: it is cracked or its seal leaks.",
        "Stay behind the shield until it is cold. Air has come in: the solid may have changed.");
    list.trip(
        "pump fails",
        new Cause.Sign(Symptom.PUMP_FAILS, "pumping 15 s without a fall by 30 %"),
        BELIEVE_S,
        HEAT_AND_OXYGEN,
        MEDIUM,
        "The pump runs and its valve is open, but the pressure does not fall.",
        "Check pump, hose and vacuum valve, and whether the vessel is open or cracked.");
    list.trip(
        "no filling",
        new Cause.Sign(
            Symptom.FILLING_FAILS,
            "filling below room pressure: no 5 mbar in 5 s (oxygen: 15 s), nor in 3 times what they"
                + " took before or take by the rig file"),
        BELIEVE_S,
        SUPPLIES,
        MEDIUM,
        "The vessel is to be filled, but the pressure does not rise.",
        "Check bottle, regulator, valve and gauge; reset and restart when they are good.");
    list.trip(
        "vent blocked",
        new Cause.Sign(Symptom.VENT_BLOCKED, "vent open 10 s, still 20 mbar over room pressure"),
        BELIEVE_S,
        SUPPLIES,
        HIGH,
        "The vent is open, but the overpressure stays.",
        "Do not open the vessel. Find out what blocks the vent; relieve it by the hand valve.");
    list.alarm(
        "pressure low",
        new Cause.Sign(Symptom.PRESSURE_LOW, "10 min below 80 % of the pressure to be kept"),
        LOW_S,
        0,
        Set.of("evacuate", "leak test", "backfill", "dose", "open", "ask"),
        MEDIUM,
        "The vessel stays well below the pressure that the step is to keep.",
        "See whether the bottle is empty or the vessel leaks.");
  }

  private static void pairs(RowList list) {
    pair(
        list,
        "oven sensors disagree",
        Channel.OVEN_TEMPERATURE,
        Channel.OVEN_TEMPERATURE_PAIR,
        PLACES_K,
        "'heater stuck on', 'oven too hot' and 'sample too hot'; a slow drift of the one sensor"
            + " stays unseen");
    pair(
        list,
        "gauges disagree",
        Channel.VESSEL_PRESSURE,
        Channel.VESSEL_PRESSURE_PAIR,
        0,
        "a still or missing value is found; the relief valve; a slow drift of the one gauge stays"
            + " unseen");
  }

  private static void pair(
      RowList list, String id, Channel one, Channel two, double placesApart, String remains) {
    if (!list.needs(two, id, remains)) {
      return;
    }
    SensorDescription a = list.rig.sensor(one).orElseThrow();
    SensorDescription b = list.rig.sensor(two).orElseThrow();
    double fixed =
        placesApart
            + COVERAGE
                * (StrictMath.hypot(a.standardUncertainty(), b.standardUncertainty())
                    + StrictMath.hypot(a.noise(), b.noise()))
            + a.resolution()
            + b.resolution();
    double share =
        COVERAGE * StrictMath.hypot(a.gainStandardUncertainty(), b.gainStandardUncertainty());
    list.trip(
        id,
        new Cause.PairDisagrees(one, two, fixed, share),
        PAIR_S,
        HEAT_AND_OXYGEN,
        HIGH,
        "The " + one.words() + " and the " + two.words() + " disagree: one of them is wrong.",
        "Find out which one with a third instrument; reset when they agree.");
  }

  private static void supply(RowList list) {
    String remains = "'no pressure step' at the next pulse";
    if (list.needs(Channel.SUPPLY_PRESSURE, "oxygen supply empty", remains)) {
      double emptyPa = EMPTY_SHARE * list.rig.oxygen().supplyPressurePa();
      list.trip(
          "oxygen supply empty",
          new Cause.BelowOrLost(Channel.SUPPLY_PRESSURE, emptyPa, emptyPa / 20),
          SUPPLY_S,
          HEAT_AND_OXYGEN,
          MEDIUM,
          "The oxygen supply has lost its pressure, or its gauge gives no value.",
          "Open the bottle slowly or change it; note a new purity; else check the gauge. Reset and"
              + " restart.");
    }
  }

  /** Where a sensor's noise is below its step, standing still proves nothing. */
  private static void stillSensors(RowList list) {
    PlausibilityRules rules = PlausibilityRules.of(list.rig);
    for (SensorDescription sensor : list.rig.sensors()) {
      boolean contact = sensor.channel().kind() == Channel.Kind.CONTACT;
      if (!contact && rules.stillMillis(sensor.channel().ordinal()) == 0) {
        list.missing(
            sensor.channel().words() + " frozen",
            "its noise is below its resolution, so a still value proves nothing",
            "the rows that see the bench not answer: 'heater dead', 'no pressure step'");
      }
    }
  }
}
