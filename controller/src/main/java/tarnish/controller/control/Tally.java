package tarnish.controller.control;

/**
 * Times and peaks of a batch.
 *
 * @param runningS time running
 * @param ovenS time with the heater regulated
 * @param equivalentS Arrhenius-equivalent time at the recipe's top temperature; 0 where the recipe
 *     gives no activation energy
 * @param peaks highest believable values
 * @param trips alarms that put the batch on hold
 * @param alarms alarms raised
 */
public record Tally(
    double runningS, double ovenS, double equivalentS, Peaks peaks, int trips, int alarms) {
  static final Tally NONE = new Tally(0, 0, 0, new Peaks(0, 0, 0), 0, 0);

  /**
   * Highest believable values.
   *
   * @param sampleK sample temperature, in K
   * @param ovenK oven temperature, in K
   * @param pressurePa vessel pressure, in Pa
   */
  public record Peaks(double sampleK, double ovenK, double pressurePa) {

    /** With the values of one more tick. */
    Peaks with(double newSampleK, double newOvenK, double newPressurePa) {
      return newSampleK <= sampleK && newOvenK <= ovenK && newPressurePa <= pressurePa
          ? this
          : new Peaks(
              StrictMath.max(sampleK, newSampleK),
              StrictMath.max(ovenK, newOvenK),
              StrictMath.max(pressurePa, newPressurePa));
    }
  }

  Tally withTrip() {
    return new Tally(runningS, ovenS, equivalentS, peaks, trips + 1, alarms);
  }

  Tally withAlarm() {
    return new Tally(runningS, ovenS, equivalentS, peaks, trips, alarms + 1);
  }
}
