package tarnish.controller.devices.board;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.sensors.PlatinumResistance;
import tarnish.shared.sensors.Thermocouple;

/** Every frame bit by bit against the tables of the data sheets. */
class ChipFramesTest {
  private static final double ZERO_K = 273.15;

  private static byte[] hex(String text) {
    return HexFormat.of().parseHex(text.replace(" ", ""));
  }

  private static int bits(String text) {
    return Integer.parseUnsignedInt(text.replace(" ", ""), 2);
  }

  private static BadReason reason(Reading reading) {
    return assertInstanceOf(Reading.Bad.class, reading).reason();
  }

  private static double value(Reading reading) {
    return assertInstanceOf(Reading.Good.class, reading).value();
  }

  /** Maxim 19-5793 rev. 2, table 4. */
  @ParameterizedTest
  @CsvSource({
    "1600.00, 0110 0100 0000 00",
    "1000.00, 0011 1110 1000 00",
    "100.75, 0000 0110 0100 11",
    "25.00, 0000 0001 1001 00",
    "0.00, 0000 0000 0000 00",
    "-0.25, 1111 1111 1111 11",
    "-1.00, 1111 1111 1111 00",
    "-250.00, 1111 0000 0110 00"
  })
  void max31855ReadsTheThermocoupleAsTabulated(double celsius, String d31to18) {
    assertEquals(celsius, Max31855Frame.sensorCelsius(bits(d31to18) << 18));
  }

  /** Maxim 19-5793 rev. 2, table 5. */
  @ParameterizedTest
  @CsvSource({
    "127.0000, 0111 1111 0000",
    "100.5625, 0110 0100 1001",
    "25.0000, 0001 1001 0000",
    "0.0000, 0000 0000 0000",
    "-0.0625, 1111 1111 1111",
    "-1.0000, 1111 1111 0000",
    "-20.0000, 1110 1100 0000",
    "-55.0000, 1100 1001 0000"
  })
  void max31855ReadsItsTerminalsAsTabulated(double celsius, String d15to4) {
    assertEquals(celsius, Max31855Frame.terminalsCelsius(bits(d15to4) << 4));
  }

  /**
   * A type K junction at 600 °C with its terminals at 25 °C gives 24.905 - 1.000 = 23.905 mV (NIST
   * Monograph 175); the chip divides by 41.276 µV/K, adds 25 °C and shows 604.25 °C.
   */
  @Test
  void max31855IsMadeStraightByTheTypesOwnFunction() {
    int frame = (int) StrictMath.round(604.25 / 0.25) << 18 | 0b0001_1001_0000 << 4;
    Max31855Frame read = Max31855Frame.decode(bytes(frame), Thermocouple.K);
    // A step of 0.25 K of the chip is about as much at the junction.
    assertEquals(600 + ZERO_K, value(read.sensor()), 0.25);
    assertEquals(25 + ZERO_K, value(read.terminals()), 1e-9);
  }

  @Test
  void max31855WithBothEndsAlikeShowsThatTemperature() {
    int frame = (-20 * 4) << 18 | (-20 * 16 & 0xFFF) << 4;
    Max31855Frame read = Max31855Frame.decode(bytes(frame), Thermocouple.K);
    assertEquals(-20 + ZERO_K, value(read.sensor()), 0.05);
  }

  /** Maxim 19-5793 rev. 2, table 3. */
  @ParameterizedTest
  @CsvSource({"1, OPEN_CIRCUIT", "2, SHORT_CIRCUIT", "4, SHORT_CIRCUIT"})
  void max31855TellsItsFaults(int fault, BadReason expected) {
    int frame = 100 << 18 | 1 << 16 | 0x190 << 4 | fault;
    Max31855Frame read = Max31855Frame.decode(bytes(frame), Thermocouple.K);
    assertEquals(expected, reason(read.sensor()));
    assertEquals(25 + ZERO_K, value(read.terminals()), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({"ffffffff", "00000000", "01940198", "01961900"})
  void max31855ThatIsNotThereIsAFault(String frame) {
    assertEquals(
        BadReason.DEVICE_FAULT, reason(Max31855Frame.decode(hex(frame), Thermocouple.K).sensor()));
  }

  /** Bit weights of the linearised temperature, 2¹⁰ to 2⁻⁷ °C; Maxim 19-7534, from memory. */
  @ParameterizedTest
  @CsvSource({
    "1600.00, 0110 0100 0000 0000 0000 0000",
    "1000.00, 0011 1110 1000 0000 0000 0000",
    "100.9375, 0000 0110 0100 1111 0000 0000",
    "25.00, 0000 0001 1001 0000 0000 0000",
    "0.0078125, 0000 0000 0000 0000 0010 0000",
    "0.00, 0000 0000 0000 0000 0000 0000",
    "-0.0625, 1111 1111 1111 1111 0000 0000",
    "-1.00, 1111 1111 1111 0000 0000 0000",
    "-250.00, 1111 0000 0110 0000 0000 0000"
  })
  void max31856ReadsTheThermocouple(double celsius, String lowThree) {
    byte[] registers = max31856("0190", "%06x".formatted(bits(lowThree)), "00");
    Max31856Frame read = Max31856Frame.decode(registers, Thermocouple.N, false);
    assertEquals(celsius + ZERO_K, value(read.sensor()), 1e-9);
  }

  /** Bit weights of the terminals' temperature, 2⁶ to 2⁻⁶ °C; Maxim 19-7534, from memory. */
  @ParameterizedTest
  @CsvSource({
    "127.984375, 7ffc",
    "127.0, 7f00",
    "25.0, 1900",
    "0.015625, 0004",
    "0.0, 0000",
    "-0.5, ff80",
    "-2.0, fe00",
    "-55.0, c900"
  })
  void max31856ReadsItsTerminals(double celsius, String registers) {
    Max31856Frame read =
        Max31856Frame.decode(max31856(registers, "019000", "00"), Thermocouple.N, false);
    assertEquals(celsius + ZERO_K, value(read.terminals()), 1e-9);
  }

  /** Fault status register; Maxim 19-7534, from memory. */
  @ParameterizedTest
  @CsvSource({
    "01, OPEN_CIRCUIT",
    "02, SHORT_CIRCUIT",
    "40, ABOVE_RANGE",
    "80, DEVICE_FAULT",
    "03, OPEN_CIRCUIT"
  })
  void max31856TellsItsFaults(String status, BadReason expected) {
    Max31856Frame read =
        Max31856Frame.decode(max31856("1900", "019000", status), Thermocouple.N, false);
    assertEquals(expected, reason(read.sensor()));
  }

  @Test
  void max31856ThatForgotItsConfigurationIsTold() {
    byte[] registers = max31856("1900", "019000", "00");
    registers[0] = 0;
    assertFalse(Max31856Frame.decode(registers, Thermocouple.N, false).configured());
    assertFalse(Max31856Frame.decode(new byte[16], Thermocouple.N, false).configured());
    byte[] ones = hex("ff".repeat(16));
    assertEquals(
        BadReason.DEVICE_FAULT, reason(Max31856Frame.decode(ones, Thermocouple.N, false).sensor()));
  }

  @Test
  void max31856IsToldItsTypeAndItsMains() {
    assertEquals(0x91, Max31856Frame.configuration0(false));
    assertEquals(0x90, Max31856Frame.configuration0(true));
    assertEquals(0x23, Max31856Frame.configuration1(Thermocouple.K));
    assertEquals(0x24, Max31856Frame.configuration1(Thermocouple.N));
    assertEquals(0x27, Max31856Frame.configuration1(Thermocouple.T));
  }

  private static byte[] max31856(String junction, String low, String status) {
    return hex("9124" + "00".repeat(8) + junction + low + status);
  }

  /** Maxim 19-6478 rev. 3, table 9: Pt100 with a 400 Ω reference. */
  @ParameterizedTest
  @CsvSource({
    "-200, 18.52, 0BDA",
    "-175, 29.22, 12B4",
    "-150, 39.72, 196C",
    "-100, 60.26, 2690",
    "-40, 84.27, 35EE",
    "-10, 96.09, 3D7E",
    "0, 100.00, 4000",
    "10, 103.90, 4280",
    "50, 119.40, 4C6A",
    "100, 138.51, 58A4",
    "200, 175.86, 708C",
    "250, 194.10, 7C3A",
    "400, 247.09, 9E24",
    "550, 297.49, BE64"
  })
  void max31865ReadsAsTabulated(double celsius, double ohm, String register) {
    byte[] registers = hex("d1" + register + "ffff000000");
    assertEquals(ohm, Max31865Frame.ohm(registers, 400), 400 / 32768.0);
    Max31865Frame read = Max31865Frame.decode(registers, 0xD1, PlatinumResistance.PT100, 400);
    assertTrue(read.configured());
    if (celsius == -200) {
      // The code is cut off below 18.52 Ω, the last resistance of IEC 60751.
      assertEquals(BadReason.BELOW_RANGE, reason(read.sensor()));
    } else {
      // One step is 12 mΩ, about 0.03 K.
      assertEquals(celsius + ZERO_K, value(read.sensor()), 0.05);
    }
  }

  /** Maxim 19-6478 rev. 3, table 5. */
  @ParameterizedTest
  @CsvSource({
    "0.025, 0666",
    "0.125, 2000",
    "0.25, 4000",
    "0.50, 8000",
    "0.75, C000",
    "0.99997, FFFE"
  })
  void max31865ReadsTheRatioAsTabulated(double ratio, String register) {
    assertEquals(ratio, Max31865Frame.ohm(hex("d1" + register), 1), 1 / 32768.0);
  }

  /** Fault status register; Maxim 19-6478 rev. 3, tables 7 and 10 to 12, bit order from memory. */
  @ParameterizedTest
  @CsvSource({
    "80, OPEN_CIRCUIT",
    "40, SHORT_CIRCUIT",
    "20, OPEN_CIRCUIT",
    "10, OPEN_CIRCUIT",
    "08, OPEN_CIRCUIT",
    "04, DEVICE_FAULT"
  })
  void max31865TellsItsFaults(String status, BadReason expected) {
    byte[] registers = hex("d14001ffff0000" + status);
    assertEquals(
        expected,
        reason(Max31865Frame.decode(registers, 0xD1, PlatinumResistance.PT100, 400).sensor()));
  }

  @Test
  void max31865WithABrokenElementAtFullScaleIsOpenEvenWithoutAFaultBit() {
    byte[] registers = hex("d1fffeffff000000");
    assertEquals(
        BadReason.OPEN_CIRCUIT,
        reason(Max31865Frame.decode(registers, 0xD1, PlatinumResistance.PT100, 400).sensor()));
  }

  @Test
  void max31865ThatForgotItsConfigurationOrIsNotThereIsToldSo() {
    for (String registers : new String[] {"0040000000000000", "ffffffffffffffff"}) {
      assertFalse(
          Max31865Frame.decode(hex(registers), 0xD1, PlatinumResistance.PT100, 400).configured());
    }
    assertEquals(0xD1, Max31865Frame.configuration(true, false));
    assertEquals(0xC0, Max31865Frame.configuration(false, true));
  }

  /** Microchip DS21298E, table 5-2 and figure 6-1: 0000 01 1 D2, D1 D0 and don't care. */
  @Test
  void mcp3208IsAskedAsItsDataSheetShows() {
    assertArrayEquals(hex("060000"), Mcp3208Frame.question(0));
    assertArrayEquals(hex("06c000"), Mcp3208Frame.question(3));
    assertArrayEquals(hex("070000"), Mcp3208Frame.question(4));
    assertArrayEquals(hex("07c000"), Mcp3208Frame.question(7));
  }

  /** Microchip DS21298E, equation 4-2: code = 4096 Vin / Vref. */
  @ParameterizedTest
  @CsvSource({"0, ffe000", "0.001, ffe001", "2.048, ffe800", "4.095, ffefff", "1.024, ffe400"})
  void mcp3208ReadsByItsEquation(double volts, String answer) {
    assertEquals(volts, Mcp3208Frame.decode(hex(answer), 4.096).volts(), 1e-12);
  }

  @Test
  void mcp3208WithoutItsNullBitIsNotThere() {
    byte[] nobody = hex("ffffff");
    assertThrows(IllegalStateException.class, () -> Mcp3208Frame.decode(nobody, 5));
  }

  /** Ideal output codes of a 16-bit converter of this family: FS 7FFFh, 1 step 0001h, -FS 8000h. */
  @ParameterizedTest
  @CsvSource({"7FFF, 4.095875", "0001, 0.000125", "0000, 0", "FFFF, -0.000125", "8000, -4.096"})
  void ads1115ReadsTheIdealCodes(String code, double volts) {
    assertEquals(volts, Ads1115Frame.decode(Integer.parseInt(code, 16), 4.096).volts(), 1e-12);
  }

  /** TI SBAS444, configuration register; from memory. */
  @ParameterizedTest
  @CsvSource({
    "0, 4.096, C383",
    "1, 4.096, D383",
    "3, 2.048, F583",
    "2, 0.256, EB83",
    "0, 6.144, C183"
  })
  void ads1115IsToldInputAndRange(int input, double fullScaleV, String expected) {
    assertEquals(Integer.parseInt(expected, 16), Ads1115Frame.configuration(input, fullScaleV));
  }

  private static byte[] bytes(int frame) {
    return new byte[] {
      (byte) (frame >> 24), (byte) (frame >> 16), (byte) (frame >> 8), (byte) frame
    };
  }
}
