package tarnish.controller.devices.board;

import java.util.Map;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.sensors.Thermocouple;

/**
 * The 32 bits of a MAX31855 (Maxim data sheet 19-5793, tables 2 to 5): D31-D18 the thermocouple's
 * temperature in steps of 0.25 °C, D16 any fault, D15-D4 the terminals' in steps of 0.0625 °C, D2
 * short to supply, D1 short to ground, D0 open; D17 and D3 are always 0.
 *
 * <p>The chip takes the voltage for a straight line through the terminals' temperature. That is
 * undone here, and the voltage put through the type's own function; without it, type K at 600 °C
 * would be wrong by several kelvin.
 *
 * @param sensor temperature of the hot junction in K
 * @param terminals temperature of the chip in K
 */
public record Max31855Frame(Reading sensor, Reading terminals) {
  private static final double CELSIUS_ZERO_K = 273.15;
  private static final double SENSOR_STEP_K = 0.25;
  private static final double TERMINALS_STEP_K = 0.0625;

  /** Sensitivity in V/K that the chip assumes; data sheet table 1, figures from memory. */
  private static final Map<Thermocouple, Double> VOLT_PER_KELVIN =
      Map.of(
          Thermocouple.K, 41.276e-6,
          Thermocouple.J, 57.953e-6,
          Thermocouple.N, 36.256e-6,
          Thermocouple.S, 9.587e-6,
          Thermocouple.T, 52.18e-6,
          Thermocouple.E, 76.373e-6,
          Thermocouple.R, 10.506e-6);

  /**
   * @param bytes the four bytes, D31 first
   * @param type what the chip is made for: not B
   */
  public static Max31855Frame decode(byte[] bytes, Thermocouple type) {
    int bits = Bytes.int32(bytes, 0);
    // A chip that is not there reads all ones or all zeros, and neither can be a frame: D17 and D3
    // are never 1, and no bench is at exactly 0 °C at both ends.
    if ((bits & 0x0002_0008) != 0 || bits == 0) {
      Reading missing = new Reading.Bad(BadReason.DEVICE_FAULT);
      return new Max31855Frame(missing, missing);
    }
    double terminalsCelsius = terminalsCelsius(bits);
    double terminalsK = terminalsCelsius + CELSIUS_ZERO_K;
    Reading terminals = new Reading.Good(terminalsK);
    if ((bits & 0x0001_0007) != 0) {
      return new Max31855Frame(new Reading.Bad(fault(bits)), terminals);
    }
    double volts = (sensorCelsius(bits) - terminalsCelsius) * VOLT_PER_KELVIN.get(type);
    return new Max31855Frame(type.temperature(volts, terminalsK), terminals);
  }

  /** The chip's own figure in °C, before it is made straight. */
  static double sensorCelsius(int bits) {
    return (bits >> 18) * SENSOR_STEP_K;
  }

  static double terminalsCelsius(int bits) {
    return ((short) bits >> 4) * TERMINALS_STEP_K;
  }

  private static BadReason fault(int bits) {
    if ((bits & 1) != 0) {
      return BadReason.OPEN_CIRCUIT;
    }
    return (bits & 0b110) != 0 ? BadReason.SHORT_CIRCUIT : BadReason.DEVICE_FAULT;
  }
}
