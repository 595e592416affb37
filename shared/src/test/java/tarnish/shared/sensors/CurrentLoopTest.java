package tarnish.shared.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.reading.BadReason;

/** The bands of NAMUR NE 43: 3.8 mA to 20.5 mA measures, 3.6 mA and 21.0 mA fail. */
class CurrentLoopTest {
  private static final CurrentLoop PRESSURE = new CurrentLoop(0, 160_000);

  @ParameterizedTest
  @CsvSource({
    "4, 0",
    "20, 160000",
    "12, 80000",
    "3.8, -2000",
    "20.5, 165000",
    "3.8001, -1999",
    "20.4999, 164999"
  })
  void theMeasuringBandIsScaledOnOneStraightLine(double milliampere, double pascal) {
    assertEquals(pascal, Expect.good(PRESSURE.value(milliampere / 1000)), 1e-6);
  }

  @ParameterizedTest
  @CsvSource({
    "0, OPEN_CIRCUIT",
    "-1, OPEN_CIRCUIT",
    "3.5999, OPEN_CIRCUIT",
    "3.6, OPEN_CIRCUIT",
    "3.6001, UNCERTAIN",
    "3.7999, UNCERTAIN",
    "20.5001, UNCERTAIN",
    "20.9999, UNCERTAIN",
    "21.0, DEVICE_FAULT",
    "21.0001, DEVICE_FAULT",
    "40, DEVICE_FAULT",
    "NaN, DEVICE_FAULT",
    "Infinity, DEVICE_FAULT",
    "-Infinity, DEVICE_FAULT"
  })
  void outsideTheMeasuringBandTheReasonIsGiven(double milliampere, BadReason reason) {
    Expect.bad(reason, PRESSURE.value(milliampere / 1000));
  }

  @Test
  void aFallingRangeIsScaledToo() {
    CurrentLoop falling = new CurrentLoop(500, 300);
    assertEquals(450, Expect.good(falling.value(0.008)), 1e-9);
  }

  @Test
  void theCurrentForAValueReadsBackAndSaturatesWhereATransmitterDoes() {
    assertEquals(50_000, Expect.good(PRESSURE.value(PRESSURE.currentA(50_000))), 1e-6);
    assertEquals(0.0205, PRESSURE.currentA(1e9));
    assertEquals(0.0038, PRESSURE.currentA(-1e9));
    assertThrows(IllegalArgumentException.class, () -> PRESSURE.currentA(Double.NaN));
  }

  @Test
  void aRangeWithoutTwoDifferentFiniteEndsIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new CurrentLoop(1, 1));
    assertThrows(IllegalArgumentException.class, () -> new CurrentLoop(Double.NaN, 1));
    assertThrows(IllegalArgumentException.class, () -> new CurrentLoop(0, Double.NaN));
    assertThrows(
        IllegalArgumentException.class, () -> new CurrentLoop(0, Double.POSITIVE_INFINITY));
  }
}
