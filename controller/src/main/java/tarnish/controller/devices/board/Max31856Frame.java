package tarnish.controller.devices.board;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.sensors.Thermocouple;

/**
 * Registers 00h to 0Fh of a MAX31856 (Maxim data sheet 19-7534, register map; layout from memory):
 * 00h and 01h the configuration, 0Ah-0Bh the terminals' temperature in steps of 2⁻⁶ °C in the upper
 * 14 bits, 0Ch-0Eh the thermocouple's in steps of 2⁻⁷ °C in the upper 19 bits, 0Fh the faults.
 *
 * @param sensor temperature of the hot junction in K, already linear
 * @param terminals temperature of the chip in K
 * @param configured whether the chip still has its configuration; it forgets it with its supply
 */
public record Max31856Frame(Reading sensor, Reading terminals, boolean configured) {
  public static final int LENGTH = 16;

  /** CR0: convert all the time, test for an open circuit, filter 60 Hz (0) or 50 Hz (1). */
  private static final int CONVERT = 0x80;

  private static final int TEST_OPEN = 0x10;
  private static final int FILTER_50_HZ = 0x01;

  /** CR1: mean of 4 samples, type in the low bits. */
  private static final int MEAN_OF_4 = 0x20;

  private static final int JUNCTION_RANGE = 0x80;
  private static final int SENSOR_RANGE = 0x40;
  private static final int OVER_OR_UNDER_VOLTAGE = 0x02;
  private static final int OPEN = 0x01;

  private static final double CELSIUS_ZERO_K = 273.15;

  public static int configuration0(boolean mains60Hz) {
    return CONVERT | TEST_OPEN | (mains60Hz ? 0 : FILTER_50_HZ);
  }

  public static int configuration1(Thermocouple type) {
    // The chip counts its types in the order of the alphabet: B, E, J, K, N, R, S, T.
    return MEAN_OF_4 | type.ordinal();
  }

  /**
   * @param registers 16 bytes from register 00h on
   */
  public static Max31856Frame decode(byte[] registers, Thermocouple type, boolean mains60Hz) {
    boolean configured =
        Bytes.uint8(registers, 0) == configuration0(mains60Hz)
            && Bytes.uint8(registers, 1) == configuration1(type);
    if (!configured) {
      Reading unusable = new Reading.Bad(BadReason.DEVICE_FAULT);
      return new Max31856Frame(unusable, unusable, false);
    }
    int faults = Bytes.uint8(registers, 0x0F);
    Reading terminals =
        (faults & JUNCTION_RANGE) != 0
            ? new Reading.Bad(BadReason.DEVICE_FAULT)
            : new Reading.Good(terminalsCelsius(registers) + CELSIUS_ZERO_K);
    Reading sensor =
        sensorFault(faults) != null
            ? new Reading.Bad(sensorFault(faults))
            : new Reading.Good(sensorCelsius(registers) + CELSIUS_ZERO_K);
    return new Max31856Frame(sensor, terminals, true);
  }

  /** The low four bits are thresholds that nobody has set; they are not looked at. */
  private static BadReason sensorFault(int faults) {
    if ((faults & OPEN) != 0) {
      return BadReason.OPEN_CIRCUIT;
    }
    if ((faults & OVER_OR_UNDER_VOLTAGE) != 0) {
      return BadReason.SHORT_CIRCUIT;
    }
    if ((faults & SENSOR_RANGE) != 0) {
      return BadReason.ABOVE_RANGE;
    }
    return (faults & JUNCTION_RANGE) != 0 ? BadReason.DEVICE_FAULT : null;
  }

  static double sensorCelsius(byte[] registers) {
    int bits = Bytes.int32(registers, 0x0C) >> 13;
    return bits / 128.0;
  }

  static double terminalsCelsius(byte[] registers) {
    int bits = (short) Bytes.uint16(registers, 0x0A) >> 2;
    return bits / 64.0;
  }
}
