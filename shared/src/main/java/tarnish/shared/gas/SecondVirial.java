package tarnish.shared.gas;

import java.util.Locale;

/**
 * Second virial coefficient of a gas and with it the error of the ideal gas law.
 *
 * <pre>B = a - b exp(c/T) in cm³/mol       p V = n R T (1 + B p/(R T))</pre>
 *
 * <p>Coefficients and ranges: Kaye and Laby, Tables of Physical and Chemical Constants. The form of
 * the equation was inferred from the table; it agrees with the CRC Handbook within 1 cm³/mol
 * (argon, 300 K). Outside its range a value still serves to say how small the error is.
 */
public enum SecondVirial {
  OXYGEN(152.8, 117.0, 108.8, 90, 400),
  NITROGEN(185.4, 141.8, 88.7, 75, 700),
  ARGON(154.2, 119.3, 105.1, 80, 1024);

  private static final double M3_PER_CM3 = 1e-6;

  private final double a;
  private final double b;
  private final double c;
  private final double lowestK;
  private final double highestK;

  SecondVirial(double a, double b, double c, double lowestK, double highestK) {
    this.a = a;
    this.b = b;
    this.c = c;
    this.lowestK = lowestK;
    this.highestK = highestK;
  }

  /** B in m³/mol; extrapolated where {@link #covers} says no. */
  public double m3PerMol(double temperatureK) {
    if (!(temperatureK > 0)) {
      throw new IllegalArgumentException("temperature must be above 0 K, got " + temperatureK);
    }
    return (a - b * StrictMath.exp(c / temperatureK)) * M3_PER_CM3;
  }

  /** Whether the coefficients were fitted at this temperature. */
  public boolean covers(double temperatureK) {
    return temperatureK >= lowestK && temperatureK <= highestK;
  }

  /**
   * B p/(R T): what p V/(n R T) differs from 1 by. An amount taken by the ideal gas law is wrong by
   * this share: positive, it comes out too large.
   */
  public double idealGasError(double pressurePa, double temperatureK) {
    if (!(pressurePa >= 0)) {
      throw new IllegalArgumentException("pressure must be at least 0 Pa, got " + pressurePa);
    }
    return m3PerMol(temperatureK) * pressurePa / (TwoZoneVolume.GAS_CONSTANT * temperatureK);
  }

  /** Amount in mol in {@code volumeM3} at one temperature, corrected. */
  public double amountMol(double pressurePa, double volumeM3, double temperatureK) {
    double ideal = pressurePa * volumeM3 / (TwoZoneVolume.GAS_CONSTANT * temperatureK);
    return ideal / (1 + idealGasError(pressurePa, temperatureK));
  }

  /** The error in words, to two digits, for a report. */
  public String statement(double pressurePa, double temperatureK) {
    return String.format(
        Locale.ROOT,
        "taking the gas as ideal shifts an amount by %+.2g %% at this pressure and temperature%s",
        100 * idealGasError(pressurePa, temperatureK),
        covers(temperatureK) ? "" : " (extrapolated)");
  }
}
