package tarnish.shared.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.BadReason;

class LinearScaleTest {
  private static final LinearScale RISING = new LinearScale(0.5, 0, 4.5, 200_000);
  private static final LinearScale FALLING = new LinearScale(0, 1, 10, 0);

  @Test
  void bothPointsAndTheMiddleAreScaled() {
    assertEquals(0, Expect.good(RISING.value(0.5)));
    assertEquals(100_000, Expect.good(RISING.value(2.5)));
    assertEquals(200_000, Expect.good(RISING.value(4.5)));
    assertEquals(0.75, Expect.good(FALLING.value(2.5)));
  }

  @Test
  void outsideTheTwoPointsIsBadAndNotExtrapolated() {
    Expect.bad(BadReason.BELOW_RANGE, RISING.value(0.4999));
    Expect.bad(BadReason.ABOVE_RANGE, RISING.value(4.5001));
  }

  @Test
  void onAFallingScaleALowSignalIsAHighValue() {
    Expect.bad(BadReason.ABOVE_RANGE, FALLING.value(-0.001));
    Expect.bad(BadReason.BELOW_RANGE, FALLING.value(10.001));
  }

  @Test
  void notANumberIsADeviceFault() {
    Expect.bad(BadReason.DEVICE_FAULT, RISING.value(Double.NaN));
    Expect.bad(BadReason.DEVICE_FAULT, RISING.value(Double.POSITIVE_INFINITY));
    assertThrows(IllegalArgumentException.class, () -> RISING.raw(Double.NaN));
  }

  @Test
  void rawIsTheInverse() {
    assertEquals(2.5, RISING.raw(100_000), 1e-12);
    assertEquals(2.5, FALLING.raw(0.75), 1e-12);
  }

  @Test
  void aScaleThatIsNoLineIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new LinearScale(1, 0, 1, 5));
    assertThrows(IllegalArgumentException.class, () -> new LinearScale(2, 0, 1, 5));
    assertThrows(IllegalArgumentException.class, () -> new LinearScale(0, 5, 1, 5));
    assertThrows(IllegalArgumentException.class, () -> new LinearScale(Double.NaN, 0, 1, 5));
    assertThrows(IllegalArgumentException.class, () -> new LinearScale(0, Double.NaN, 1, 5));
    assertThrows(IllegalArgumentException.class, () -> new LinearScale(0, 0, Double.NaN, 5));
  }
}
