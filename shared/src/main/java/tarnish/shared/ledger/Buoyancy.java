package tarnish.shared.ledger;

import tarnish.shared.estimate.Estimate;

/**
 * Correction of a weighing for the buoyancy of air.
 *
 * <pre>m = m_c (1 - ρ_a/ρ_c) / (1 - ρ_a/ρ)</pre>
 *
 * A balance is adjusted to show conventional mass m_c: what weights of ρ_c = 8000 kg/m³ would show
 * in air (OIML D 28; from memory). An oxide is less dense than its metal, so the correction changes
 * on the way: for copper to copper(II) oxide by about 6 parts in 100 000.
 */
public final class Buoyancy {
  /** Density of the weights by convention in kg/m³ (OIML D 28; from memory). */
  public static final double WEIGHTS_KG_PER_M3 = 8000;

  /** The approximate formula of OIML R 111 is good to this share (from memory). */
  private static final double FORMULA_RELATIVE_UNCERTAINTY = 2e-4;

  private Buoyancy() {}

  /**
   * Density of air in kg/m³ (OIML R 111, E.3, approximate formula of CIPM; from memory):
   *
   * <pre>ρ = (0.34848 p - 0.009 h exp(0.061 t)) / (273.15 + t)</pre>
   *
   * with p in hPa, h in %, t in °C; from 900 hPa to 1100 hPa, 10 °C to 30 °C, below 80 %.
   *
   * @param relativeHumidity 0 to 0.8
   */
  public static Estimate airKgPerM3(
      double pressurePa, double temperatureK, double relativeHumidity) {
    double celsius = temperatureK - 273.15;
    if (!(pressurePa >= 90_000 && pressurePa <= 110_000)
        || !(celsius >= 10 && celsius <= 30)
        || !(relativeHumidity >= 0 && relativeHumidity <= 0.8)) {
      throw new IllegalArgumentException(
          "the formula for the density of air holds from 900 hPa to 1100 hPa, 10 °C to 30 °C and up"
              + " to 80 % humidity, got "
              + pressurePa
              + " Pa, "
              + temperatureK
              + " K, "
              + relativeHumidity);
    }
    double density =
        (0.34848 * pressurePa / 100
                - 0.009 * 100 * relativeHumidity * StrictMath.exp(0.061 * celsius))
            / temperatureK;
    return new Estimate(density, FORMULA_RELATIVE_UNCERTAINTY * density);
  }

  /**
   * Mass from a reading.
   *
   * @param readingKg as the balance shows it, tare taken off
   * @param airKgPerM3 density of the air
   * @param solidKgPerM3 density of what is weighed, of its grains, not of the heap
   */
  public static Estimate massKg(Estimate readingKg, Estimate airKgPerM3, Estimate solidKgPerM3) {
    double air = airKgPerM3.value();
    double solid = solidKgPerM3.value();
    if (!(air >= 0 && air < solid)) {
      throw new IllegalArgumentException(
          "the solid must be denser than the air around it, got "
              + solid
              + " and "
              + air
              + " kg/m³");
    }
    double factor = (1 - air / WEIGHTS_KG_PER_M3) / (1 - air / solid);
    // The derivatives of the factor, to first order in ρ_a/ρ.
    double byAir = (1 / solid - 1 / WEIGHTS_KG_PER_M3) * airKgPerM3.standardUncertainty();
    double bySolid = air / (solid * solid) * solidKgPerM3.standardUncertainty();
    double relative = StrictMath.hypot(byAir, bySolid);
    return new Estimate(
        readingKg.value() * factor,
        StrictMath.hypot(
            readingKg.standardUncertainty() * factor, readingKg.value() * factor * relative));
  }
}
