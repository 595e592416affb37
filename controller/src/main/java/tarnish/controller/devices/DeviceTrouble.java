package tarnish.controller.devices;

/** A device did not do what it was asked; the message is for the person. */
public final class DeviceTrouble extends Exception {
  private static final long serialVersionUID = 1L;

  /** What kind of trouble it is, which decides what is done about it. */
  public enum Kind {
    /** Nothing came within the deadline. */
    SILENT,
    /** Something came that is no answer. */
    GARBLED,
    /** The device understood and says no. */
    REFUSED,
    /** The way to the device is gone. */
    LOST
  }

  private final Kind kind;

  public DeviceTrouble(Kind kind, String message) {
    super(message);
    this.kind = kind;
  }

  public Kind kind() {
    return kind;
  }
}
