package tarnish.shared.rig;

/** How a sensor senses; the words are those of a rig file. */
public enum SensorElement {
  THERMOCOUPLE_B("thermocouple B"),
  THERMOCOUPLE_E("thermocouple E"),
  THERMOCOUPLE_J("thermocouple J"),
  THERMOCOUPLE_K("thermocouple K"),
  THERMOCOUPLE_N("thermocouple N"),
  THERMOCOUPLE_R("thermocouple R"),
  THERMOCOUPLE_S("thermocouple S"),
  THERMOCOUPLE_T("thermocouple T"),
  PT100("Pt100"),
  PT1000("Pt1000"),
  CURRENT_LOOP("4-20 mA"),
  LINEAR("linear"),
  CONTACT("contact");

  private final String words;

  SensorElement(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
