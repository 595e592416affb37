package tarnish.controller.app;

import java.util.Map;

/** How a person provokes each row at a real bench, as near to its own cause as is safe. */
final class ProofWords {
  private static final String EMPTY_COLD =
      "Vessel cold, empty and behind its shield, bottles shut but for what is named. ";

  private static final String SIMULATOR_ONLY =
      "Not to be provoked at the bench: it would need the danger itself. Prove it on the simulator"
          + " and its sensors by themselves.";

  private static final Map<String, String> AT_THE_BENCH =
      Map.ofEntries(
          Map.entry(
              "emergency stop", "Press the stop while the heater is on; all must go off at once."),
          Map.entry("door open", "Open the oven door while it heats; the heater must go off."),
          Map.entry("operator overdue", "Check in for 0.02 h and wait without checking out."),
          Map.entry("person needed", "Start a recipe whose first step is attended, checked out."),
          Map.entry("interlock defeated", "Defeat an interlock that the rig file allows, 1 min."),
          Map.entry("room oxygen high", "Test gas of more than 23.5 % oxygen at the room sensor."),
          Map.entry("room oxygen low", "Test gas of less than 19.5 % oxygen at the room sensor."),
          Map.entry("room oxygen lost", "Unplug the room oxygen sensor."),
          Map.entry("sample temperature lost", "Unplug the sample thermocouple while it heats."),
          Map.entry("oven temperature lost", "Unplug the oven thermocouple while it heats."),
          Map.entry("second oven temperature lost", "Unplug the second oven thermocouple."),
          Map.entry("seal temperature lost", "Unplug the seal's sensor."),
          Map.entry("vessel pressure lost", "Unplug the pressure gauge."),
          Map.entry("second vessel pressure lost", "Unplug the second pressure gauge."),
          Map.entry("heater dead", "Pull the heater's fuse and let a ramp ask for full power."),
          Map.entry(
              "heater stuck on",
              "Bridge the heater's relay at its terminals, person at the main switch, below 100 °C;"
                  + " the relay behind the heartbeat must cut it."),
          Map.entry(
              "sample sensor loose",
              "Lift the sample thermocouple off its seat in the empty vessel, in a steady ramp."),
          Map.entry(
              "gas comes in", EMPTY_COLD + "Evacuate, shut all, crack the oxygen valve by hand."),
          Map.entry(
              "supply valve passes",
              EMPTY_COLD + "Fill to room pressure, then crack the oxygen valve by hand."),
          Map.entry("vessel leaks", EMPTY_COLD + "Evacuate, then loosen the clamp a little."),
          Map.entry("pump fails", EMPTY_COLD + "Evacuate with the pump unplugged."),
          Map.entry("no filling", EMPTY_COLD + "Backfill with the inert bottle shut."),
          Map.entry("vent blocked", EMPTY_COLD + "Cap the vent, fill to 30 mbar over the room."),
          Map.entry("no pressure step", EMPTY_COLD + "Give a pulse with the oxygen bottle shut."),
          Map.entry("oxygen supply empty", "Shut the oxygen bottle and bleed its line."),
          Map.entry("pressure low", EMPTY_COLD + "Hold a pressure with pulses of 1 mbar."),
          Map.entry("oven sensors disagree", "Warm one of the two thermocouples by hand."),
          Map.entry("gauges disagree", "Shut the isolating valve of one gauge and evacuate."),
          Map.entry("leak test failed", EMPTY_COLD + "Leak test with the clamp loosened a little."),
          Map.entry("step overdue", "Run a step with a time limit too short for it."),
          Map.entry("power returned", "End the service in mid-batch (empty vessel), start it."),
          Map.entry("loop overrun", "Stop the service's process for 5 s (SIGSTOP, SIGCONT)."),
          Map.entry("outputs not confirmed", "Unplug the cable of an output device."),
          Map.entry("journal not writable", "Take the write permission off the record's folder."),
          Map.entry("clock stepped", "Set the clock of the machine by two minutes."),
          Map.entry("sample too hot", "Lower its limit in a copy of the rig file, then heat."),
          Map.entry("oven too hot", "Lower its limit in a copy of the rig file, then heat."),
          Map.entry("second oven sensor too hot", "Lower its limit in a copy of the rig file."),
          Map.entry("seal too hot", "Warm air at the seal's sensor, its limit lowered in a copy."),
          Map.entry("pressure too high", "Lower its limit in a copy of the rig file, then fill."),
          Map.entry(
              "second gauge pressure too high", "As for the first gauge, with that one off."));

  private ProofWords() {}

  static String atTheBench(String row) {
    return AT_THE_BENCH.getOrDefault(row, SIMULATOR_ONLY);
  }
}
