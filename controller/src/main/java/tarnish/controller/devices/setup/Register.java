package tarnish.controller.devices.setup;

/** The vocabulary of a Modbus register map; the words are those of a rig file. */
public final class Register {
  private Register() {}

  /** The four tables of the Modbus data model (Modbus Application Protocol V1.1b3, 4.3). */
  public enum Table {
    COIL("coil"),
    DISCRETE_INPUT("discrete input"),
    INPUT_REGISTER("input register"),
    HOLDING_REGISTER("holding register");

    private final String words;

    Table(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }

    public boolean isOfBits() {
      return this == COIL || this == DISCRETE_INPUT;
    }
  }

  /** How the bits of a value are read. */
  public enum Kind {
    BIT("bit", 1),
    INT16("int16", 1),
    UINT16("uint16", 1),
    INT32("int32", 2),
    UINT32("uint32", 2),
    FLOAT32("float32", 2);

    private final String words;
    private final int registers;

    Kind(String words, int registers) {
      this.words = words;
      this.registers = registers;
    }

    public String words() {
      return words;
    }

    public int registers() {
      return registers;
    }
  }

  /** Which of the two registers of a 32-bit value comes first; the standard does not say. */
  public enum WordOrder {
    HIGH_FIRST("high word first"),
    LOW_FIRST("low word first");

    private final String words;

    WordOrder(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /**
   * The number that registers hold.
   *
   * @param bytes as they came, each register with its high byte first
   * @return NaN for a float32 that is none
   */
  public static double number(byte[] bytes, Kind kind, WordOrder order) {
    if (bytes.length < 2 * kind.registers()) {
      throw new IllegalArgumentException(
          "need " + 2 * kind.registers() + " bytes, got " + bytes.length);
    }
    int first = (bytes[0] & 0xFF) << 8 | bytes[1] & 0xFF;
    if (kind.registers() == 1) {
      return kind == Kind.INT16 ? (short) first : first;
    }
    int second = (bytes[2] & 0xFF) << 8 | bytes[3] & 0xFF;
    int bits = order == WordOrder.HIGH_FIRST ? first << 16 | second : second << 16 | first;
    return switch (kind) {
      case FLOAT32 -> Float.intBitsToFloat(bits);
      case UINT32 -> Integer.toUnsignedLong(bits);
      default -> bits;
    };
  }
}
