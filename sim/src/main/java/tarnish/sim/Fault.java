package tarnish.sim;

/** What can go wrong on the bench. Severity 1 is the usual case, 0 is none, see each one. */
public enum Fault {
  /** Heater carries current whatever it is told; severity is the share of full power. */
  HEATER_RELAY_WELDED("heater relay welded"),
  /** Heater gives only 1 - severity of its power. */
  HEATER_DEAD("heater dead"),
  SAMPLE_THERMOCOUPLE_OPEN("sample thermocouple open"),
  /** Severity 1: the device reports a short. Below 1: reads between sample and room, unreported. */
  SAMPLE_THERMOCOUPLE_SHORT("sample thermocouple shorted"),
  SAMPLE_THERMOCOUPLE_FROZEN("sample thermocouple frozen"),
  /** Every fifth reading or so is off by up to 100 K times severity. */
  SAMPLE_THERMOCOUPLE_JUMPING("sample thermocouple jumping"),
  /** Reads the oven wall instead of the sample (severity 1), sluggishly. */
  SAMPLE_THERMOCOUPLE_DETACHED("sample thermocouple detached"),
  OVEN_THERMOCOUPLE_OPEN("oven thermocouple open"),
  /** Reads less and less, by 20 K an hour times severity; a negative severity reads more. */
  OVEN_THERMOCOUPLE_DRIFT("oven thermocouple drifting"),
  PRESSURE_GAUGE_OPEN("pressure gauge open"),
  PRESSURE_GAUGE_FROZEN("pressure gauge frozen"),
  /** Oxygen valve stays open by severity. */
  OXYGEN_VALVE_STUCK_OPEN("oxygen valve stuck open"),
  /** Closed oxygen valve passes 1/1000 of its open flow times severity. */
  OXYGEN_VALVE_LEAKING("oxygen valve leaking through"),
  /** Open oxygen valve passes only 1 - severity. */
  OXYGEN_VALVE_BLOCKED("oxygen valve blocked"),
  /** Oxygen supply pressure is down by the share severity. */
  OXYGEN_SUPPLY_EMPTY("oxygen supply empty"),
  /** A leak of 2e-6 m³/s times severity. */
  VESSEL_CRACKED("vessel cracked"),
  /** Pump works at 1 - severity of its speed. */
  PUMP_FAILED("vacuum pump failed"),
  /** Vent passes only 1 - severity. */
  VENT_BLOCKED("vent blocked"),
  /** Surface and crust of the solid react 1 + 99 severity times as fast. */
  RUNAWAY("runaway reaction"),
  /** Neck conducts 1 + 9 severity times as much heat to the seal. */
  SEAL_OVERHEATED("seal overheated"),
  DOOR_OPEN("oven door open"),
  EMERGENCY_STOP_PRESSED("emergency stop pressed"),
  /** Room oxygen is up by 0.05 times severity. */
  ROOM_OXYGEN_HIGH("room oxygen high"),
  /** Room oxygen is down by 0.05 times severity: inert gas escapes. */
  ROOM_OXYGEN_LOW("room oxygen low"),
  /** The second oven thermocouple is open. */
  SECOND_OVEN_THERMOCOUPLE_OPEN("second oven thermocouple open"),
  /** The second pressure gauge is open. */
  SECOND_GAUGE_OPEN("second pressure gauge open"),
  /** Reads more by 50 mbar times severity. */
  SECOND_GAUGE_OFF("second pressure gauge off"),
  SEAL_SENSOR_OPEN("seal sensor open"),
  ROOM_OXYGEN_SENSOR_OPEN("room oxygen sensor open"),
  /** The regulator of the oxygen bottle lets 1 + 3 severity times the pressure through. */
  OXYGEN_REGULATOR_FAILED("oxygen regulator failed"),
  /** Inert supply pressure is down by the share severity. */
  INERT_SUPPLY_EMPTY("inert supply empty"),
  /** The input device no longer answers: every reading is stale. */
  INPUTS_SILENT("inputs silent");

  static final int COUNT = values().length;

  private final String words;

  Fault(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
