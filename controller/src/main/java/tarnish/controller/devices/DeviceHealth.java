package tarnish.controller.devices;

/**
 * How a device does.
 *
 * @param device its name
 * @param place where it is reached
 * @param condition as last seen
 * @param lastMillis time the last answer took
 * @param worstMillis longest time an answer took
 * @param answers that came as they should
 * @param troubles of any kind
 * @param openings how often the way to it was opened
 * @param lastTrouble in words, empty if there was none
 * @param unconfirmedMillis how long one of its outputs has gone unconfirmed
 */
public record DeviceHealth(
    String device,
    String place,
    Condition condition,
    double lastMillis,
    double worstMillis,
    long answers,
    long troubles,
    long openings,
    String lastTrouble,
    long unconfirmedMillis) {

  /** How a device was last seen. */
  public enum Condition {
    NEVER_SEEN("not reached yet"),
    ANSWERING("answering"),
    FALTERING("faltering"),
    LOST("lost");

    private final String words;

    Condition(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
