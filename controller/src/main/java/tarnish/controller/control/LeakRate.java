package tarnish.controller.control;

/**
 * The leak found by the last leak test.
 *
 * @param molPerSAtVacuum gas leaking in while the vessel is evacuated, in mol/s; 0 where unknown
 * @param uncertaintyMolPerS its standard uncertainty
 * @param tested whether a test was passed
 */
record LeakRate(double molPerSAtVacuum, double uncertaintyMolPerS, boolean tested) {
  static final LeakRate UNKNOWN = new LeakRate(0, 0, false);

  /** In-leak at a pressure, taken as proportional to the difference to the room's, in mol/s. */
  double molPerS(double pressurePa, double roomPa) {
    return molPerSAtVacuum * (roomPa - pressurePa) / roomPa;
  }

  double uncertaintyMolPerS(double pressurePa, double roomPa) {
    return uncertaintyMolPerS * StrictMath.abs(roomPa - pressurePa) / roomPa;
  }
}
