package tarnish.controller.control;

/** State of an alarm, as in IEC 62682 / ISA-18.2. */
public enum AlarmState {
  NORMAL("normal"),
  UNACKNOWLEDGED("unacknowledged"),
  ACKNOWLEDGED("acknowledged"),
  RETURNED_UNACKNOWLEDGED("returned to normal, unacknowledged"),
  LATCHED_UNACKNOWLEDGED("latched, unacknowledged"),
  LATCHED_ACKNOWLEDGED("latched, acknowledged");

  private final String words;

  AlarmState(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }

  public boolean isUnacknowledged() {
    return this == UNACKNOWLEDGED
        || this == RETURNED_UNACKNOWLEDGED
        || this == LATCHED_UNACKNOWLEDGED;
  }

  /** The cause is gone but the latch is not. */
  public boolean isLatchedOnly() {
    return this == LATCHED_UNACKNOWLEDGED || this == LATCHED_ACKNOWLEDGED;
  }

  /** The condition became true. */
  AlarmState raised() {
    return switch (this) {
      case NORMAL, RETURNED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED ->
          UNACKNOWLEDGED;
      case UNACKNOWLEDGED, ACKNOWLEDGED -> this;
    };
  }

  /** The condition became false. */
  AlarmState returned(boolean latching) {
    return switch (this) {
      case UNACKNOWLEDGED -> latching ? LATCHED_UNACKNOWLEDGED : RETURNED_UNACKNOWLEDGED;
      case ACKNOWLEDGED -> latching ? LATCHED_ACKNOWLEDGED : NORMAL;
      case NORMAL, RETURNED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED -> this;
    };
  }

  /** A person took note. */
  AlarmState acknowledged() {
    return switch (this) {
      case UNACKNOWLEDGED -> ACKNOWLEDGED;
      case RETURNED_UNACKNOWLEDGED -> NORMAL;
      case LATCHED_UNACKNOWLEDGED -> LATCHED_ACKNOWLEDGED;
      case NORMAL, ACKNOWLEDGED, LATCHED_ACKNOWLEDGED -> this;
    };
  }

  /** A person reset the latch; only where the cause is gone. */
  AlarmState reset() {
    return isLatchedOnly() ? NORMAL : this;
  }
}
