package tarnish.sim;

/**
 * A balance in air: it feels the weight less the buoyancy of what is weighed, and was adjusted with
 * weights of 8000 kg/m³ that feel theirs (OIML D 28; from memory).
 *
 * <pre>
 *   shown (1 - rho_air/8000) = m - rho_air V
 * </pre>
 */
final class BalanceInAir {
  private static final double WEIGHTS_KG_PER_M3 = 8000;
  private static final double DRY_AIR_KG_PER_MOL = 28.9655e-3;
  private static final double WATER_KG_PER_MOL = 18.015e-3;
  private static final double R = 8.31446261815324;

  private BalanceInAir() {}

  /**
   * Density of moist air as a mixture of ideal gases, with Magnus' formula for the saturated vapour
   * (WMO; from memory).
   *
   * @param relativeHumidity 0 to 1
   */
  static double airKgPerM3(double pressurePa, double temperatureK, double relativeHumidity) {
    double celsius = temperatureK - 273.15;
    double saturatedPa = 611.2 * StrictMath.exp(17.62 * celsius / (243.12 + celsius));
    double vapourPa = relativeHumidity * saturatedPa;
    return ((pressurePa - vapourPa) * DRY_AIR_KG_PER_MOL + vapourPa * WATER_KG_PER_MOL)
        / (R * temperatureK);
  }

  static double readingKg(double massKg, double volumeM3, double airKgPerM3) {
    return (massKg - airKgPerM3 * volumeM3) / (1 - airKgPerM3 / WEIGHTS_KG_PER_M3);
  }
}
