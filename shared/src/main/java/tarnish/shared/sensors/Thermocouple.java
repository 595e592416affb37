package tarnish.shared.sensors;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/**
 * Letter-designated thermocouples on the International Temperature Scale of 1990.
 *
 * <p>Source: NIST Monograph 175 (1993), the same functions as IEC 60584-1. Voltage from temperature
 * is the defining function. Temperature from voltage is the published approximate inverse, off by
 * at most 0.06 K of the defining function (types R and S above 1064 °C by 0.002 K); where no
 * inverse is published (E, K, N, T below -200 °C, B below 250 °C) the defining function is inverted
 * numerically. The wire itself is far less exact: the tolerances of IEC 60584-1 apply on top.
 *
 * <p>Nothing is extrapolated.
 */
public enum Thermocouple {
  B(TypeB.FORWARD, TypeB.INVERSE, 42.2),
  E(TypeE.FORWARD, TypeE.INVERSE, -270),
  J(TypeJ.FORWARD, TypeJ.INVERSE, -210),
  K(TypeK.FORWARD, TypeK.INVERSE, -270),
  N(TypeN.FORWARD, TypeN.INVERSE, -270),
  R(TypeR.FORWARD, TypeR.INVERSE, -50),
  S(TypeS.FORWARD, TypeS.INVERSE, -50),
  T(TypeT.FORWARD, TypeT.INVERSE, -270);

  private static final double VOLT_PER_MILLIVOLT = 1e-3;

  // One picovolt, so that rounding in the sum of two voltages does not push the ends out of range.
  private static final double ROUNDING_MILLIVOLT = 1e-9;

  // Published limits of the inverses are rounded to 1 µV, which is at most 0.2 K at their cold end.
  private static final double ROUNDED_LIMIT_K = 1;

  private final Polynomial[] forward;
  private final Polynomial[] inverse;
  private final double readableMinCelsius;
  private final double readableMinMillivolt;
  private final double maxMillivolt;
  private final double coldEndCelsius;

  Thermocouple(Polynomial[] forward, Polynomial[] inverse, double readableMinCelsius) {
    this.forward = forward;
    this.inverse = inverse;
    this.readableMinCelsius = readableMinCelsius;
    this.readableMinMillivolt = millivolt(readableMinCelsius);
    this.maxMillivolt = millivolt(forward[forward.length - 1].high);
    this.coldEndCelsius = inverse[0].at(inverse[0].low) + ROUNDED_LIMIT_K;
  }

  /** Lowest temperature of the defining function in K. */
  public double minK() {
    return Celsius.toKelvin(forward[0].low);
  }

  /** Highest temperature of the defining function in K. */
  public double maxK() {
    return Celsius.toKelvin(forward[forward.length - 1].high);
  }

  /**
   * Lowest temperature in K that a voltage determines: {@link #minK()}, but 42.2 °C for type B,
   * whose voltage falls to -2.6 µV at 21 °C and is positive, and so unambiguous, only above 42.2
   * °C.
   */
  public double readableMinK() {
    return Celsius.toKelvin(readableMinCelsius);
  }

  /**
   * Thermoelectric voltage in V with the reference junction at 0 °C.
   *
   * @param temperatureK from {@link #minK()} to {@link #maxK()}
   * @throws IllegalArgumentException outside that range or for NaN
   */
  public double voltage(double temperatureK) {
    if (!covers(temperatureK)) {
      throw new IllegalArgumentException(
          "a type %s thermocouple is defined from %.2f K to %.2f K, got %s K"
              .formatted(this, minK(), maxK(), temperatureK));
    }
    return millivolt(Celsius.fromKelvin(temperatureK)) * VOLT_PER_MILLIVOLT;
  }

  /**
   * Temperature of the hot junction in K, from the voltage at the terminals and their temperature.
   *
   * <p>E(hot) = E(measured) + E(junction): voltages add, temperatures do not.
   *
   * @param measuredVolts voltage at the terminals in V
   * @param junctionK temperature of the terminals in K
   * @return bad as below or above range where the sum is outside the type's range; bad as a device
   *     fault where an argument is not a number or the terminals are at no temperature the type
   *     covers
   */
  public Reading temperature(double measuredVolts, double junctionK) {
    if (!Double.isFinite(measuredVolts) || !covers(junctionK)) {
      return new Reading.Bad(BadReason.DEVICE_FAULT);
    }
    double hot = measuredVolts / VOLT_PER_MILLIVOLT + millivolt(Celsius.fromKelvin(junctionK));
    if (hot < readableMinMillivolt - ROUNDING_MILLIVOLT) {
      return new Reading.Bad(BadReason.BELOW_RANGE);
    }
    if (hot > maxMillivolt + ROUNDING_MILLIVOLT) {
      return new Reading.Bad(BadReason.ABOVE_RANGE);
    }
    // The voltage is in range, so the temperature is: the published inverse overshoots by its
    // error.
    double hotK = Celsius.toKelvin(celsius(hot));
    return new Reading.Good(StrictMath.max(readableMinK(), StrictMath.min(maxK(), hotK)));
  }

  private boolean covers(double temperatureK) {
    return temperatureK >= minK() && temperatureK <= maxK();
  }

  private double millivolt(double celsius) {
    double polynomial = Polynomial.pieceFor(forward, celsius).at(celsius);
    // Type K is a polynomial plus a Gaussian term, the latter at 0 °C and above only.
    return forward == TypeK.FORWARD && celsius >= 0
        ? polynomial + TypeK.exponentialMillivolt(celsius)
        : polynomial;
  }

  private double celsius(double millivolt) {
    if (millivolt < inverse[0].low) {
      return RisingFunction.inverse(this::millivolt, millivolt, readableMinCelsius, coldEndCelsius);
    }
    return Polynomial.pieceFor(inverse, millivolt).at(millivolt);
  }
}
