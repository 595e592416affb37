package tarnish.shared.sensors;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/**
 * A transmitter with a 4-20 mA signal, its failures told apart as NAMUR NE 43 asks.
 *
 * <p>3.8 mA to 20.5 mA measures, on the one straight line, so a value may lie up to 1.25 % of the
 * span below 4 mA and 3.125 % above 20 mA. At most 3.6 mA is a failure and reported as an open
 * circuit, since a broken wire or a dead supply is by far its commonest cause. At least 21 mA is a
 * failure and reported as a device fault: a transmitter drives the loop there on purpose to say it
 * is broken, and a shorted cable, which looks the same to an input that limits its current, wants
 * the same act. Between the bands the value is uncertain: the caller decides how long to bear it.
 * That the limits themselves belong to the failure and to the measuring band is from memory.
 *
 * @param valueAt4mA value in the channel's SI unit at 4 mA
 * @param valueAt20mA value at 20 mA, different from the other; it may be the lesser one
 */
public record CurrentLoop(double valueAt4mA, double valueAt20mA) {
  private static final double ZERO_A = 0.004;
  private static final double FULL_A = 0.020;
  private static final double FAILED_LOW_A = 0.0036;
  private static final double VALID_LOW_A = 0.0038;
  private static final double VALID_HIGH_A = 0.0205;
  private static final double FAILED_HIGH_A = 0.021;

  public CurrentLoop {
    if (!Double.isFinite(valueAt4mA)
        || !Double.isFinite(valueAt20mA)
        || valueAt4mA == valueAt20mA) {
      throw new IllegalArgumentException(
          "a 4-20 mA range needs two different finite ends, got %s and %s"
              .formatted(valueAt4mA, valueAt20mA));
    }
  }

  /** The value in the channel's SI unit; {@code currentA} in A, a device fault if not finite. */
  public Reading value(double currentA) {
    if (!Double.isFinite(currentA)) {
      return new Reading.Bad(BadReason.DEVICE_FAULT);
    }
    if (currentA <= FAILED_LOW_A) {
      return new Reading.Bad(BadReason.OPEN_CIRCUIT);
    }
    if (currentA >= FAILED_HIGH_A) {
      return new Reading.Bad(BadReason.DEVICE_FAULT);
    }
    if (currentA < VALID_LOW_A || currentA > VALID_HIGH_A) {
      return new Reading.Bad(BadReason.UNCERTAIN);
    }
    double share = (currentA - ZERO_A) / (FULL_A - ZERO_A);
    return new Reading.Good(valueAt4mA + share * (valueAt20mA - valueAt4mA));
  }

  /**
   * The current in A a sound transmitter sends for {@code value}, which saturates at 3.8 mA and
   * 20.5 mA.
   *
   * @throws IllegalArgumentException for NaN
   */
  public double currentA(double value) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("no current stands for NaN");
    }
    double share = (value - valueAt4mA) / (valueAt20mA - valueAt4mA);
    double ideal = ZERO_A + share * (FULL_A - ZERO_A);
    return StrictMath.max(VALID_LOW_A, StrictMath.min(VALID_HIGH_A, ideal));
  }
}
