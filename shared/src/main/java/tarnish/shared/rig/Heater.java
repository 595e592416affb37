package tarnish.shared.rig;

/**
 * The oven heater.
 *
 * @param actuator how it is driven
 * @param ratedPowerW power at full duty
 * @param windowS time-proportioning window of a relay in s
 * @param minimumSwitchS shortest on or off time of a relay in s
 * @param dutyMax greatest duty ever given, 0 to 1
 */
public record Heater(
    Actuator actuator, double ratedPowerW, double windowS, double minimumSwitchS, double dutyMax) {

  /** How the heater is driven; the words are those of a rig file. */
  public enum Actuator {
    RELAY("relay"),
    ANALOGUE("analogue");

    private final String words;

    Actuator(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
