package tarnish.shared.sensors;

/**
 * How far a new platinum resistance thermometer may be off: ±(a + b |t|), t in °C (IEC 60751).
 *
 * <p>The edition of 1995 gives class A up to 650 °C and class B over the whole range; later
 * editions narrow class A for wire-wound elements to -100 °C to 450 °C and class B to -196 °C to
 * 600 °C (from memory).
 */
public enum ToleranceClass {
  A(0.15, 0.002, 650),
  B(0.3, 0.005, 850);

  private static final double MIN_CELSIUS = -200;

  private final double atZeroK;
  private final double perKelvin;
  private final double maxCelsius;

  ToleranceClass(double atZeroK, double perKelvin, double maxCelsius) {
    this.atZeroK = atZeroK;
    this.perKelvin = perKelvin;
    this.maxCelsius = maxCelsius;
  }

  /**
   * Half-width of the tolerance band in K.
   *
   * @throws IllegalArgumentException where the class says nothing: below -200 °C, above 650 °C
   *     (class A) or 850 °C (class B), or for NaN
   */
  public double toleranceK(double temperatureK) {
    if (!(temperatureK >= Celsius.toKelvin(MIN_CELSIUS)
        && temperatureK <= Celsius.toKelvin(maxCelsius))) {
      throw new IllegalArgumentException(
          "class %s holds from %.2f K to %.2f K, got %s K"
              .formatted(
                  this, Celsius.toKelvin(MIN_CELSIUS), Celsius.toKelvin(maxCelsius), temperatureK));
    }
    return atZeroK + perKelvin * StrictMath.abs(Celsius.fromKelvin(temperatureK));
  }

  /** Standard uncertainty in K: the band as a rectangular distribution, JCGM 100:2008, 4.3.7. */
  public double standardUncertaintyK(double temperatureK) {
    return toleranceK(temperatureK) / StrictMath.sqrt(3);
  }
}
