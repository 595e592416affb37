package tarnish.controller.control;

import tarnish.shared.gas.TwoZoneVolume;

/**
 * How much a second at a temperature does of what a second at the recipe's highest soak does.
 *
 * <pre>
 *   f(T) = exp(-Ea/R (1/T - 1/Tref))
 * </pre>
 *
 * <p>Taken every tick, so exponentials of whole kelvins are kept and the rest is a short series: x
 * is at most Ea/(2 R T²) there, and what the series leaves out is below 1e-9 of f. Immutable.
 */
final class EquivalentTime {
  private static final int FIRST_K = 200;
  private static final int LAST_K = 1600;

  /** Beyond this the series is not good enough. */
  private static final double SERIES_REACH = 0.25;

  private final double perKelvin;
  private final double referenceK;
  private final double[] atWholeK;

  /**
   * @param activationEnergyJPerMol of the recipe
   * @param referenceK temperature at which the factor is 1, above 0
   */
  EquivalentTime(double activationEnergyJPerMol, double referenceK) {
    this.perKelvin = activationEnergyJPerMol / TwoZoneVolume.GAS_CONSTANT;
    this.referenceK = referenceK;
    atWholeK = new double[LAST_K - FIRST_K + 1];
    for (int i = 0; i < atWholeK.length; i++) {
      atWholeK[i] = exact(FIRST_K + i);
    }
  }

  private double exact(double temperatureK) {
    return StrictMath.exp(-perKelvin * (1 / temperatureK - 1 / referenceK));
  }

  /** The factor at a temperature above 0 K. */
  double factor(double temperatureK) {
    int whole = (int) (temperatureK + 0.5);
    if (whole < FIRST_K || whole > LAST_K) {
      return exact(temperatureK);
    }
    double x = perKelvin * (temperatureK - whole) / (temperatureK * whole);
    if (x > SERIES_REACH || x < -SERIES_REACH) {
      return exact(temperatureK);
    }
    return atWholeK[whole - FIRST_K]
        * (1
            + x
                * (1
                    + x
                        * (1.0 / 2)
                        * (1
                            + x
                                * (1.0 / 3)
                                * (1
                                    + x * (1.0 / 4) * (1 + x * (1.0 / 5) * (1 + x * (1.0 / 6)))))));
  }
}
