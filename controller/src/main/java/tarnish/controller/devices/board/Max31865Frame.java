package tarnish.controller.devices.board;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.sensors.PlatinumResistance;

/**
 * Registers 00h to 07h of a MAX31865 (Maxim data sheet 19-6478, tables 4, 5 and 9): 00h the
 * configuration, 01h-02h the ratio of element to reference resistor in 15 bits with a fault bit
 * below, 07h the faults.
 *
 * @param sensor temperature of the element in K
 * @param configured whether the chip still has its configuration; it forgets it with its supply
 */
public record Max31865Frame(Reading sensor, boolean configured) {
  public static final int LENGTH = 8;

  /** Configuration: bias on, convert all the time; bit meanings from memory. */
  private static final int BIAS_AND_CONVERT = 0xC0;

  private static final int THREE_WIRES = 0x10;
  private static final int FILTER_50_HZ = 0x01;

  /** Written beside the configuration it forgets old faults; it reads back as 0. */
  public static final int FORGET_FAULTS = 0x02;

  private static final int RTD_HIGH = 0x80;
  private static final int RTD_LOW = 0x40;
  private static final int REFERENCE_OR_FORCE_OPEN = 0x38;
  private static final int OVER_OR_UNDER_VOLTAGE = 0x04;
  private static final double FULL = 32_768;

  public static int configuration(boolean threeWires, boolean mains60Hz) {
    return BIAS_AND_CONVERT | (threeWires ? THREE_WIRES : 0) | (mains60Hz ? 0 : FILTER_50_HZ);
  }

  /**
   * @param registers 8 bytes from register 00h on
   * @param configuration as it was written
   */
  public static Max31865Frame decode(
      byte[] registers, int configuration, PlatinumResistance element, double referenceOhm) {
    if (Bytes.uint8(registers, 0) != configuration) {
      return new Max31865Frame(new Reading.Bad(BadReason.DEVICE_FAULT), false);
    }
    boolean anyFault = (registers[2] & 1) != 0;
    if (anyFault) {
      return new Max31865Frame(new Reading.Bad(fault(Bytes.uint8(registers, 7))), true);
    }
    return new Max31865Frame(element.temperature(ohm(registers, referenceOhm)), true);
  }

  static double ohm(byte[] registers, double referenceOhm) {
    int code = Bytes.uint16(registers, 1) >> 1;
    return code / FULL * referenceOhm;
  }

  private static BadReason fault(int status) {
    if ((status & OVER_OR_UNDER_VOLTAGE) != 0) {
      return BadReason.DEVICE_FAULT;
    }
    if ((status & (RTD_HIGH | REFERENCE_OR_FORCE_OPEN)) != 0) {
      return BadReason.OPEN_CIRCUIT;
    }
    return (status & RTD_LOW) != 0 ? BadReason.SHORT_CIRCUIT : BadReason.DEVICE_FAULT;
  }
}
