package tarnish.sim;

/**
 * The room: a mean with a daily swing of temperature and a slower one of pressure.
 *
 * @param temperatureK mean temperature
 * @param temperatureSwingK half of the daily swing
 * @param pressurePa mean pressure
 * @param pressureSwingPa half of the swing of the weather, period four days
 */
public record RoomSpec(
    double temperatureK, double temperatureSwingK, double pressurePa, double pressureSwingPa) {

  private static final double DAY_S = 86_400;

  double temperatureAtK(double timeS) {
    return temperatureK + temperatureSwingK * StrictMath.sin(2 * StrictMath.PI * timeS / DAY_S);
  }

  double pressureAtPa(double timeS) {
    return pressurePa + pressureSwingPa * StrictMath.sin(2 * StrictMath.PI * timeS / (4 * DAY_S));
  }
}
