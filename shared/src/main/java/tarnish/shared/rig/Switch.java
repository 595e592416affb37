package tarnish.shared.rig;

/**
 * An output that is on or off. The order is part of the journal's format: append only.
 *
 * <p>Valves: on means open.
 */
public enum Switch {
  HEATER("heater"),
  OXYGEN("oxygen valve"),
  INERT("inert gas valve"),
  VACUUM("vacuum valve"),
  VENT("vent valve"),
  PUMP("vacuum pump"),
  HEARTBEAT("heartbeat");

  private final String words;

  Switch(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }

  int bit() {
    return 1 << ordinal();
  }
}
