package tarnish.sim;

/** A mistake that somebody made with the wires of a bench. */
public enum Miswiring {
  /** The thermocouples of sample and oven are at each other's terminals. */
  SAMPLE_AND_OVEN_SWAPPED,
  /** The two wires of the sample's thermocouple are exchanged. */
  SAMPLE_REVERSED,
  /** The two wires of the oven's thermocouple are exchanged. */
  OVEN_REVERSED,
  /** The sample's front end takes its terminals for 12 K warmer than they are. */
  SAMPLE_COLD_JUNCTION,
  /** A valve, or its driver, opens without current. */
  OXYGEN_INVERTED,
  INERT_INVERTED,
  VACUUM_INVERTED,
  VENT_INVERTED,
  /** Oxygen and vacuum valve hang on each other's outputs. */
  OXYGEN_AND_VACUUM_SWAPPED
}
