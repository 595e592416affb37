package tarnish.shared.reading;

/** Why a reading is not a value. The order is part of the journal's format: append only. */
public enum BadReason {
  NOT_FITTED("not fitted on this rig"),
  NO_DATA("no value received yet"),
  STALE("last value is too old"),
  OPEN_CIRCUIT("sensor or cable open"),
  SHORT_CIRCUIT("sensor or cable shorted"),
  BELOW_RANGE("below the sensor's range"),
  ABOVE_RANGE("above the sensor's range"),
  UNCERTAIN("signal between its valid range and its failure limit"),
  FROZEN("value has stopped moving"),
  JUMPED("value jumped faster than the bench can"),
  DISAGREES("paired sensors disagree"),
  DEVICE_FAULT("device reports a fault");

  private final String words;

  BadReason(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
