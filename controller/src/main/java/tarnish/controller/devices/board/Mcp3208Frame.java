package tarnish.controller.devices.board;

/**
 * The 24 clocks of an MCP3208 conversion (Microchip data sheet DS21298, sections 5 and 6.1, table
 * 5-2): out go five zeros, the start bit, single-ended, and the channel's three bits; in come,
 * after a null bit, 12 bits of 4096 · Vin / Vref.
 *
 * @param volts at the input
 */
public record Mcp3208Frame(double volts) {
  private static final int START_AND_SINGLE = 0b110;
  private static final int NULL_BIT = 0x10;
  private static final double FULL = 4096;

  public static byte[] question(int channel) {
    return new byte[] {
      (byte) (START_AND_SINGLE | channel >> 2), (byte) (channel << 6), 0,
    };
  }

  /**
   * @throws IllegalStateException if the null bit is not 0: no chip is driving the line
   */
  public static Mcp3208Frame decode(byte[] answer, double referenceV) {
    if ((answer[1] & NULL_BIT) != 0) {
      throw new IllegalStateException("no null bit: the converter does not drive its line");
    }
    int code = Bytes.uint16(answer, 1) & 0xFFF;
    return new Mcp3208Frame(code / FULL * referenceV);
  }
}
