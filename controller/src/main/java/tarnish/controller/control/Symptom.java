package tarnish.controller.control;

/**
 * What the interlock table reads from what bench and people did over a while: see {@link Signs}.
 * All of them are worked out in one go before the table is walked.
 */
enum Symptom {
  OPERATOR_OVERDUE,
  PERSON_NEEDED,
  INTERLOCK_DEFEATED,
  RUNAWAY,
  HEATER_STUCK_ON,
  HEATER_DEAD,
  SAMPLE_SENSOR_LOOSE,
  GAS_COMES_IN,
  SUPPLY_PASSES,
  VESSEL_LEAKS,
  PUMP_FAILS,
  FILLING_FAILS,
  VENT_BLOCKED,
  PRESSURE_LOW;

  int bit() {
    return 1 << ordinal();
  }

  /** The bits of those that show in this tick. */
  static int showing(TickWork work) {
    return OPERATOR_OVERDUE.bitIf(work.presence.overdue())
        | PERSON_NEEDED.bitIf(Presences.waitsForPerson(work))
        | INTERLOCK_DEFEATED.bitIf(work.alarms.anyDefeated())
        | RUNAWAY.bitIf(HeatSigns.runaway(work))
        | HEATER_STUCK_ON.bitIf(HeatSigns.heaterStuckOn(work))
        | HEATER_DEAD.bitIf(HeatSigns.heaterDead(work))
        | SAMPLE_SENSOR_LOOSE.bitIf(HeatSigns.sampleLoose(work))
        | GAS_COMES_IN.bitIf(GasSigns.gasComesIn(work))
        | SUPPLY_PASSES.bitIf(GasSigns.supplyLeaksIn(work))
        | VESSEL_LEAKS.bitIf(GasSigns.vesselLeaks(work))
        | PUMP_FAILS.bitIf(GasSigns.pumpFails(work))
        | FILLING_FAILS.bitIf(GasSigns.fillFails(work))
        | VENT_BLOCKED.bitIf(GasSigns.ventBlocked(work))
        | PRESSURE_LOW.bitIf(PressureKeeper.isFarBelow(work));
  }

  private int bitIf(boolean shows) {
    return shows ? bit() : 0;
  }
}
