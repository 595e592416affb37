package tarnish.controller.control;

/**
 * Times and peaks of a batch.
 *
 * @param runningS time running
 * @param ovenS time with the heater regulated
 * @param equivalentS Arrhenius-equivalent time at the recipe's top temperature; 0 where the recipe
 *     gives no activation energy
 * @param peakSampleK highest believable sample temperature
 * @param peakOvenK highest believable oven temperature
 * @param peakPressurePa highest believable vessel pressure
 * @param trips alarms that put the batch on hold
 * @param alarms alarms raised
 */
public record Tally(
    double runningS,
    double ovenS,
    double equivalentS,
    double peakSampleK,
    double peakOvenK,
    double peakPressurePa,
    int trips,
    int alarms) {
  static final Tally NONE = new Tally(0, 0, 0, 0, 0, 0, 0, 0);
}
