package tarnish.controller.devices.board;

/**
 * Registers of an ADS1115 (Texas Instruments data sheet SBAS444, conversion and configuration
 * registers; bit positions from memory): one conversion of one input against ground.
 *
 * @param volts at the input
 */
public record Ads1115Frame(double volts) {
  public static final int CONVERSION = 0;
  public static final int CONFIGURATION = 1;

  /** Written it starts a conversion; read it says that none is running. */
  private static final int START = 0x8000;

  private static final int INPUT_0_TO_GROUND = 0x4000;
  private static final int ONE_SHOT = 0x0100;

  /** 128 conversions a second. */
  private static final int RATE_128 = 0x0080;

  private static final int NO_COMPARATOR = 0x0003;
  private static final double FULL = 32_768;

  /** Time of one conversion at 128 a second, 10 % slow at worst, in ms. */
  public static final long CONVERSION_MILLIS = 9;

  public static int configuration(int input, double fullScaleV) {
    return START
        | INPUT_0_TO_GROUND
        | input << 12
        | gain(fullScaleV) << 9
        | ONE_SHOT
        | RATE_128
        | NO_COMPARATOR;
  }

  /** Ranges fall by gain code: 6.144 V is 0, 4.096 V is 1, then each half of the one before. */
  private static int gain(double fullScaleV) {
    double[] ranges = {6.144, 4.096, 2.048, 1.024, 0.512, 0.256};
    for (int i = 0; i < ranges.length; i++) {
      if (ranges[i] == fullScaleV) {
        return i;
      }
    }
    throw new IllegalArgumentException("no range of the ADS1115: " + fullScaleV + " V");
  }

  public static boolean isReady(int configuration) {
    return (configuration & START) != 0;
  }

  public static Ads1115Frame decode(int conversion, double fullScaleV) {
    return new Ads1115Frame((short) conversion / FULL * fullScaleV);
  }
}
