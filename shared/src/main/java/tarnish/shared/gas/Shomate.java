package tarnish.shared.gas;

import java.util.List;

/**
 * Heat capacity, enthalpy and entropy of a gas at 1 bar by the Shomate equation, t = T/(1000 K):
 *
 * <pre>
 *   Cp          = A + B t + C t² + D t³ + E/t²                          J/(mol K)
 *   H - H(298)  = A t + B t²/2 + C t³/3 + D t⁴/4 - E/t + F - H          kJ/mol
 *   S           = A ln t + B t + C t²/2 + D t³/3 - E/(2 t²) + G         J/(mol K)
 * </pre>
 *
 * <p>NIST Chemistry WebBook (Chase 1998); equation seen there, coefficients from memory and checked
 * against the tabulated values at 298.15 K.
 */
public enum Shomate {
  OXYGEN(
      new Range(100, 700, 31.32234, -20.23531, 57.86644, -36.50624, -0.007374, -8.903471, 246.7945),
      new Range(
          700, 2000, 30.03235, 8.772972, -3.988133, 0.788313, -0.741599, -11.32468, 236.1663)),
  NITROGEN(
      new Range(100, 500, 28.98641, 1.853978, -9.647459, 16.63537, 0.000117, -8.671914, 226.4168),
      new Range(500, 2000, 19.50583, 19.88705, -8.598535, 1.369784, 0.527601, -4.935202, 212.3900)),
  ARGON(
      new Range(
          298,
          6000,
          20.78600,
          2.825911e-7,
          -1.464191e-7,
          1.092131e-8,
          -3.661371e-8,
          -6.197350,
          179.9990));

  /** One piece; H of the equation is 0 for these elements. */
  private record Range(
      double fromK,
      double toK,
      double a,
      double b,
      double c,
      double d,
      double e,
      double f,
      double g) {}

  private static final double J_PER_KJ = 1e3;

  private final List<Range> ranges;

  Shomate(Range... ranges) {
    this.ranges = List.of(ranges);
  }

  /** Molar heat capacity at constant pressure in J/(mol K). */
  public double heatCapacity(double temperatureK) {
    Range r = range(temperatureK);
    double t = temperatureK / 1000;
    return r.a + t * (r.b + t * (r.c + t * r.d)) + r.e / (t * t);
  }

  /** H(T) - H(298.15 K) in J/mol. */
  public double enthalpyAbove298(double temperatureK) {
    Range r = range(temperatureK);
    double t = temperatureK / 1000;
    return J_PER_KJ * (t * (r.a + t * (r.b / 2 + t * (r.c / 3 + t * r.d / 4))) - r.e / t + r.f);
  }

  /** Standard molar entropy in J/(mol K). */
  public double entropy(double temperatureK) {
    Range r = range(temperatureK);
    double t = temperatureK / 1000;
    return r.a * StrictMath.log(t)
        + t * (r.b + t * (r.c / 2 + t * r.d / 3))
        - r.e / (2 * t * t)
        + r.g;
  }

  private Range range(double temperatureK) {
    for (Range range : ranges) {
      if (temperatureK >= range.fromK && temperatureK <= range.toK) {
        return range;
      }
    }
    throw new IllegalArgumentException(
        "the coefficients hold from "
            + ranges.get(0).fromK
            + " K to "
            + ranges.get(ranges.size() - 1).toK
            + " K, got "
            + temperatureK
            + " K");
  }
}
