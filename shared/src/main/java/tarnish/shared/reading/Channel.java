package tarnish.shared.reading;

/**
 * What a sensor stands for on the bench. The order is part of the journal's format: append only.
 *
 * <p>Temperatures in K, pressures absolute in Pa, fractions 0 to 1, contacts 0 or 1.
 */
public enum Channel {
  SAMPLE_TEMPERATURE("sample temperature", Kind.TEMPERATURE),
  OVEN_TEMPERATURE("oven temperature", Kind.TEMPERATURE),
  OVEN_TEMPERATURE_PAIR("second oven temperature", Kind.TEMPERATURE),
  SEAL_TEMPERATURE("seal temperature", Kind.TEMPERATURE),
  ROOM_TEMPERATURE("room temperature", Kind.TEMPERATURE),
  VESSEL_PRESSURE("vessel pressure", Kind.PRESSURE),
  VESSEL_PRESSURE_PAIR("second vessel pressure", Kind.PRESSURE),
  SUPPLY_PRESSURE("oxygen supply pressure", Kind.PRESSURE),
  ROOM_PRESSURE("room pressure", Kind.PRESSURE),
  ROOM_OXYGEN("room oxygen", Kind.FRACTION),
  /** 1 while the emergency stop is released and its circuit whole, 0 when pressed or broken. */
  EMERGENCY_STOP("emergency stop circuit", Kind.CONTACT),
  /** 1 while the oven door is closed. */
  DOOR("oven door", Kind.CONTACT);

  /** The physical kind of a channel, which fixes its SI unit. */
  public enum Kind {
    TEMPERATURE,
    PRESSURE,
    FRACTION,
    CONTACT
  }

  public static final int COUNT = values().length;

  private final String words;
  private final Kind kind;

  Channel(String words, Kind kind) {
    this.words = words;
    this.kind = kind;
  }

  /** The name as written in a rig file and on the page. */
  public String words() {
    return words;
  }

  public Kind kind() {
    return kind;
  }
}
