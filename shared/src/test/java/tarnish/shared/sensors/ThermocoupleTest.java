package tarnish.shared.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.reading.BadReason;

class ThermocoupleTest {
  private static final double ICE_K = 273.15;

  // Type K table, NIST Monograph 175: 600 °C 24.905 mV, 25 °C 1.000 mV.
  @Test
  void coldJunctionIsCompensatedInVoltsAndNotInKelvin() {
    double hotK = Expect.good(Thermocouple.K.temperature(23.905e-3, 25 + ICE_K));
    // 0.5 µV of each table cell is 0.012 K at 42 µV/K; the inverse is stated to 0.06 K.
    assertEquals(600, hotK - ICE_K, 0.09);
    double addedInKelvin = Expect.good(Thermocouple.K.temperature(23.905e-3, ICE_K)) + 25;
    assertTrue(addedInKelvin - hotK > 1, "the two ways must differ, or this test shows nothing");
  }

  @ParameterizedTest
  @EnumSource
  void equalTemperaturesAtBothEndsGiveNoVoltage(Thermocouple type) {
    double junctionK = 60 + ICE_K;
    assertEquals(junctionK, Expect.good(type.temperature(0, junctionK)), 0.06);
  }

  @ParameterizedTest
  @CsvSource({
    "B, 630.615",
    "J, 760",
    "R, 1064.18",
    "R, 1664.5",
    "S, 1064.18",
    "S, 1664.5",
    "E, 0",
    "K, 0",
    "N, 0",
    "T, 0"
  })
  void forwardPiecesMeetAtTheirJoints(Thermocouple type, double celsius) {
    double step = 1e-7;
    double below = type.voltage(celsius - step + ICE_K);
    double above = type.voltage(celsius + step + ICE_K);
    // The published pieces of J differ by 0.075 nV x 1000 at 760 °C, all others by far less.
    assertEquals(below, above, 1e-10 + 2 * step * 80e-6);
  }

  // The joint of type J: 42.918641333 mV below, 42.918641408 mV above, computed from the pieces.
  @Test
  void typeJMeetsAt760CelsiusWithinAThousandthOfAMicrovolt() {
    assertEquals(42.918641333e-3, Thermocouple.J.voltage(760 - 1e-9 + ICE_K), 2e-12);
    assertEquals(42.918641408e-3, Thermocouple.J.voltage(760 + ICE_K), 2e-12);
  }

  @ParameterizedTest
  @EnumSource
  void voltageRisesOverTheWholeReadableRange(Thermocouple type) {
    double last = Double.NEGATIVE_INFINITY;
    for (double kelvin = type.readableMinK(); kelvin <= type.maxK(); kelvin += 0.25) {
      double volts = type.voltage(kelvin);
      assertTrue(volts > last, type + " does not rise at " + kelvin + " K");
      last = volts;
    }
  }

  @ParameterizedTest
  @EnumSource
  void justOutsideTheRangeIsBadAndTheEndsAreGood(Thermocouple type) {
    double junctionK = 25 + ICE_K;
    double junction = type.voltage(junctionK);
    double lowest = type.voltage(type.readableMinK()) - junction;
    double highest = type.voltage(type.maxK()) - junction;
    double nanovolt = 1e-9;
    Expect.bad(BadReason.BELOW_RANGE, type.temperature(lowest - nanovolt, junctionK));
    Expect.bad(BadReason.ABOVE_RANGE, type.temperature(highest + nanovolt, junctionK));
    assertEquals(
        type.readableMinK(), Expect.good(type.temperature(lowest + nanovolt, junctionK)), 0.06);
    assertEquals(type.maxK(), Expect.good(type.temperature(highest - nanovolt, junctionK)), 0.06);
  }

  @ParameterizedTest
  @EnumSource
  void noGoodTemperatureLiesOutsideTheRange(Thermocouple type) {
    double lowest = type.voltage(type.readableMinK()) - type.voltage(ICE_K);
    double highest = type.voltage(type.maxK()) - type.voltage(ICE_K);
    assertTrue(Expect.good(type.temperature(lowest, ICE_K)) >= type.readableMinK());
    assertTrue(Expect.good(type.temperature(highest, ICE_K)) <= type.maxK());
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 10, 21, 35, 42})
  void typeBBelow42CelsiusIsRefusedBecauseItsVoltageFitsTwoTemperatures(double celsius) {
    double volts = Thermocouple.B.voltage(celsius + ICE_K);
    Expect.bad(BadReason.BELOW_RANGE, Thermocouple.B.temperature(volts, ICE_K));
  }

  // R and S have two published inverses from 1064 °C to 1200 °C; the one stated more exact is used.
  @ParameterizedTest
  @CsvSource({"R, 0.0011", "S, 0.0003"})
  void theMoreExactInverseIsUsedWhereTwoOverlap(Thermocouple type, double allowedK) {
    for (double celsius = 1064.5; celsius <= 1200; celsius += 0.5) {
      double back = Expect.good(type.temperature(type.voltage(celsius + ICE_K), ICE_K)) - ICE_K;
      assertEquals(celsius, back, allowedK);
    }
  }

  @ParameterizedTest
  @EnumSource
  void notANumberIsADeviceFaultAndNeverATemperature(Thermocouple type) {
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(Double.NaN, 298));
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(Double.POSITIVE_INFINITY, 298));
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(Double.NEGATIVE_INFINITY, 298));
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(0.001, Double.NaN));
  }

  @ParameterizedTest
  @EnumSource
  void aJunctionAtNoPossibleTemperatureIsADeviceFault(Thermocouple type) {
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(0.001, 0));
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(0.001, 25 - ICE_K));
    Expect.bad(BadReason.DEVICE_FAULT, type.temperature(0.001, 1e4));
  }

  @ParameterizedTest
  @EnumSource
  void voltageIsRefusedOutsideTheRangeAndForNotANumber(Thermocouple type) {
    assertThrows(IllegalArgumentException.class, () -> type.voltage(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> type.voltage(type.minK() - 0.01));
    assertThrows(IllegalArgumentException.class, () -> type.voltage(type.maxK() + 0.01));
  }
}
