package tarnish.shared.sensors;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/**
 * Industrial platinum resistance thermometers, -200 °C to 850 °C.
 *
 * <p>IEC 60751, t in °C, C only below 0 °C:
 *
 * <pre>R = R0 (1 + A t + B t² + C (t - 100) t³)</pre>
 */
public enum PlatinumResistance {
  PT100(100),
  PT1000(1000);

  private static final double A = 3.9083e-3;
  private static final double B = -5.775e-7;
  private static final double C = -4.183e-12;

  private static final double MIN_CELSIUS = -200;
  private static final double MAX_CELSIUS = 850;

  /**
   * At or below this share of R0 the element is shorted: 0.185 R0 is -200 °C, and what is left of a
   * shorted Pt100 is a few ohms of cable. Common practice.
   */
  private static final double SHORT_RATIO = 0.05;

  /**
   * At or above this share of R0 the circuit is open: 3.905 R0 is 850 °C, and converters that
   * measure against 4 R0 or more saturate just below that when a wire breaks. Common practice.
   */
  private static final double OPEN_RATIO = 3.95;

  private final double resistanceAtZeroOhm;

  PlatinumResistance(double resistanceAtZeroOhm) {
    this.resistanceAtZeroOhm = resistanceAtZeroOhm;
  }

  public static double minK() {
    return Celsius.toKelvin(MIN_CELSIUS);
  }

  public static double maxK() {
    return Celsius.toKelvin(MAX_CELSIUS);
  }

  /** Resistance at 0 °C in ohm. */
  public double resistanceAtZeroOhm() {
    return resistanceAtZeroOhm;
  }

  /**
   * Resistance in ohm.
   *
   * @param temperatureK from {@link #minK()} to {@link #maxK()}
   * @throws IllegalArgumentException outside that range or for NaN
   */
  public double resistance(double temperatureK) {
    if (!(temperatureK >= minK() && temperatureK <= maxK())) {
      throw new IllegalArgumentException(
          "%s is defined from %.2f K to %.2f K, got %s K"
              .formatted(this, minK(), maxK(), temperatureK));
    }
    return resistanceAtZeroOhm * ratio(Celsius.fromKelvin(temperatureK));
  }

  /**
   * Temperature in K: the exact inverse of {@link #resistance}, no approximation.
   *
   * @param ohm resistance of the element alone; the resistance of its cable is taken off before
   * @return bad as open or short circuit for a resistance no platinum element in use can have, as
   *     below or above range just outside -200 °C to 850 °C, as a device fault for NaN or a clearly
   *     negative resistance
   */
  public Reading temperature(double ohm) {
    double ratio = ohm / resistanceAtZeroOhm;
    if (!(ratio >= -SHORT_RATIO)) {
      return new Reading.Bad(BadReason.DEVICE_FAULT);
    }
    if (ratio <= SHORT_RATIO) {
      return new Reading.Bad(BadReason.SHORT_CIRCUIT);
    }
    if (ratio >= OPEN_RATIO) {
      return new Reading.Bad(BadReason.OPEN_CIRCUIT);
    }
    if (ratio < ratio(MIN_CELSIUS)) {
      return new Reading.Bad(BadReason.BELOW_RANGE);
    }
    if (ratio > ratio(MAX_CELSIUS)) {
      return new Reading.Bad(BadReason.ABOVE_RANGE);
    }
    return new Reading.Good(Celsius.toKelvin(celsius(ratio)));
  }

  private static double ratio(double celsius) {
    double t = celsius;
    double aboveZero = 1 + t * (A + t * B);
    return t >= 0 ? aboveZero : aboveZero + C * (t - 100) * t * t * t;
  }

  private static double celsius(double ratio) {
    if (ratio < 1) {
      return RisingFunction.inverse(PlatinumResistance::ratio, ratio, MIN_CELSIUS, 0);
    }
    // The root of B t² + A t + (1 - R/R0) = 0 that is 0 at R0.
    return (-A + StrictMath.sqrt(A * A - 4 * B * (1 - ratio))) / (2 * B);
  }
}
