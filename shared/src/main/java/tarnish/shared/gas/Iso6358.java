package tarnish.shared.gas;

/**
 * Flow of a gas through a valve or orifice after ISO 6358-1 (classic ellipse, exponent 0.5).
 *
 * <pre>
 *   choked     (p2/p1 &lt;= b): q = C p1 rho0 sqrt(T0/T1)
 *   subsonic   (p2/p1 &gt;  b): q = choked * sqrt(1 - ((p2/p1 - b)/(1 - b))²)
 * </pre>
 *
 * The reference is air at 20 °C, 100 kPa and 65 % relative humidity (ISO 8778). Another gas flows
 * in proportion to the square root of its molar mass (mass flow), as theory gives for the same
 * orifice. Near p2 = p1 the ellipse has an infinite slope, which no real path has: from {@link
 * #LINEAR_FROM} on the flow falls in a straight line to zero (laminar flow; common practice).
 *
 * @param sonicConductance C for air in m³/(s Pa), 0 or more
 * @param criticalRatio b, 0 or more and below {@link #LINEAR_FROM}
 */
public record Iso6358(double sonicConductance, double criticalRatio) {
  /** Density of the reference air in kg/m³ (ISO 8778). */
  public static final double REFERENCE_DENSITY = 1.185;

  /** Temperature of the reference air in K (ISO 8778). */
  public static final double REFERENCE_TEMPERATURE_K = 293.15;

  /** Molar mass of dry air in kg/mol (US Standard Atmosphere 1976; from memory). */
  public static final double AIR_KG_PER_MOL = 0.0289644;

  /** Pressure ratio from which the flow is taken as laminar. */
  public static final double LINEAR_FROM = 0.995;

  public Iso6358 {
    if (!(sonicConductance >= 0) || Double.isInfinite(sonicConductance)) {
      throw new IllegalArgumentException(
          "sonic conductance must be finite and at least 0 m³/(s Pa), got " + sonicConductance);
    }
    if (!(criticalRatio >= 0 && criticalRatio < LINEAR_FROM)) {
      throw new IllegalArgumentException(
          "critical pressure ratio must be from 0 to below "
              + LINEAR_FROM
              + ", got "
              + criticalRatio);
    }
  }

  /**
   * Flow in mol/s from the upstream to the downstream side; 0 when the pressures stand the other
   * way.
   */
  public double molPerS(
      double upstreamPa, double upstreamK, double downstreamPa, double gasKgPerMol) {
    return molPerSPa(upstreamK, gasKgPerMol)
        * upstreamPa
        * flowFunction(downstreamPa / upstreamPa, criticalRatio);
  }

  /** Flow in kg/s; see {@link #molPerS}. */
  public double kgPerS(
      double upstreamPa, double upstreamK, double downstreamPa, double gasKgPerMol) {
    return gasKgPerMol * molPerS(upstreamPa, upstreamK, downstreamPa, gasKgPerMol);
  }

  /** Choked flow in mol/s per Pa of upstream pressure. */
  public double molPerSPa(double upstreamK, double gasKgPerMol) {
    if (!(upstreamK > 0) || !(gasKgPerMol > 0)) {
      throw new IllegalArgumentException(
          "upstream temperature and molar mass must be above 0, got "
              + upstreamK
              + " K, "
              + gasKgPerMol
              + " kg/mol");
    }
    return sonicConductance
        * (REFERENCE_DENSITY / AIR_KG_PER_MOL)
        * StrictMath.sqrt(REFERENCE_TEMPERATURE_K / upstreamK * (AIR_KG_PER_MOL / gasKgPerMol));
  }

  /** Flow as a share of the choked flow, at the ratio of downstream to upstream pressure. */
  public static double flowFunction(double ratio, double criticalRatio) {
    if (ratio <= criticalRatio) {
      return 1;
    }
    if (ratio < LINEAR_FROM) {
      return ellipse(ratio, criticalRatio);
    }
    return ratio < 1 ? ellipse(LINEAR_FROM, criticalRatio) * (1 - ratio) / (1 - LINEAR_FROM) : 0;
  }

  private static double ellipse(double ratio, double criticalRatio) {
    double x = (ratio - criticalRatio) / (1 - criticalRatio);
    return StrictMath.sqrt(1 - x * x);
  }
}
