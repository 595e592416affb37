package tarnish.shared.sensors;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/**
 * A straight line through two points of calibration, valid between them only.
 *
 * @param rawLow raw signal at the first point, in the device's own unit
 * @param valueAtRawLow value there, in the channel's SI unit
 * @param rawHigh raw signal at the second point, more than {@code rawLow}
 * @param valueAtRawHigh value there; different from the other, and the lesser one on a falling
 *     scale
 */
public record LinearScale(
    double rawLow, double valueAtRawLow, double rawHigh, double valueAtRawHigh) {
  public LinearScale {
    if (!(rawHigh - rawLow > 0) || Double.isInfinite(rawHigh - rawLow)) {
      throw new IllegalArgumentException(
          "the raw signal must rise from the first point to the second, got %s to %s"
              .formatted(rawLow, rawHigh));
    }
    if (!Double.isFinite(valueAtRawLow)
        || !Double.isFinite(valueAtRawHigh)
        || valueAtRawLow == valueAtRawHigh) {
      throw new IllegalArgumentException(
          "a scale needs two different finite values, got %s and %s"
              .formatted(valueAtRawLow, valueAtRawHigh));
    }
  }

  /** The value in the channel's SI unit; bad outside the two points, a device fault for NaN. */
  public Reading value(double raw) {
    if (!Double.isFinite(raw)) {
      return new Reading.Bad(BadReason.DEVICE_FAULT);
    }
    boolean rising = valueAtRawHigh > valueAtRawLow;
    if (raw < rawLow) {
      return new Reading.Bad(rising ? BadReason.BELOW_RANGE : BadReason.ABOVE_RANGE);
    }
    if (raw > rawHigh) {
      return new Reading.Bad(rising ? BadReason.ABOVE_RANGE : BadReason.BELOW_RANGE);
    }
    double share = (raw - rawLow) / (rawHigh - rawLow);
    return new Reading.Good(valueAtRawLow + share * (valueAtRawHigh - valueAtRawLow));
  }

  /**
   * The raw signal for {@code value}: the inverse of {@link #value}, not limited to the two points.
   *
   * @throws IllegalArgumentException for NaN
   */
  public double raw(double value) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("no raw signal stands for NaN");
    }
    double share = (value - valueAtRawLow) / (valueAtRawHigh - valueAtRawLow);
    return rawLow + share * (rawHigh - rawLow);
  }
}
