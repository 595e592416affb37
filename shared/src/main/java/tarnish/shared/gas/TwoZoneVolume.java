package tarnish.shared.gas;

/**
 * The gas space of a vessel that is partly in the oven: a hot zone and a cold zone at one pressure.
 *
 * @param hotM3 volume inside the oven in m³, more than 0
 * @param coldM3 volume outside the oven (head, lines) in m³, 0 or more
 */
public record TwoZoneVolume(double hotM3, double coldM3) {
  /** Molar gas constant in J/(mol K), exact since the 2019 SI. */
  public static final double GAS_CONSTANT = 8.31446261815324;

  public TwoZoneVolume {
    if (!(hotM3 > 0) || !(coldM3 >= 0) || Double.isInfinite(hotM3) || Double.isInfinite(coldM3)) {
      throw new IllegalArgumentException(
          "hot volume must be above 0 m³ and cold volume at least 0 m³, got "
              + hotM3
              + ", "
              + coldM3);
    }
  }

  /** V/T summed over the zones, in m³/K. */
  public double volumeOverTemperature(double hotK, double coldK) {
    return hotM3 / hotK + coldM3 / coldK;
  }

  /** Amount of ideal gas in mol at {@code pressurePa}: n = p/R (V_hot/T_hot + V_cold/T_cold). */
  public double amountMol(double pressurePa, double hotK, double coldK) {
    return pressurePa / GAS_CONSTANT * volumeOverTemperature(hotK, coldK);
  }

  /** Pressure in Pa of {@code amountMol} of ideal gas. */
  public double pressurePa(double amountMol, double hotK, double coldK) {
    return amountMol * GAS_CONSTANT / volumeOverTemperature(hotK, coldK);
  }
}
