package tarnish.shared.vessel;

import tarnish.shared.rig.Vessel;

/**
 * The overpressure a round glass tube may hold inside, against the room, at a temperature.
 *
 * <p>Borosilicate 3.3, EN 1595, wall w, outside diameter od, allowed stress K/S = 7 N/mm²:
 *
 * <pre>p [bar] = 20 (K/S) w / (od - w) = 140 w / (od - w)</pre>
 *
 * <p>Fused quartz, thin-wall formula of tube makers, inside radius r, working stress S = 6.895 MPa
 * (1000 psi, about a seventh of the design strength of 48 MPa); it is not to be used above 0.7 MPa,
 * so the rating ends there:
 *
 * <pre>p = S w / r</pre>
 *
 * <p>Not covered, and each able to break a tube this rating allows: vacuum (buckling of the wall),
 * flat ends, cones, flanges and other joints, scratches, bruises and devitrified spots, stress left
 * from glass-blowing, thermal shock and uneven heating, and pressure that changes many times. The
 * rating assumes an even, unscratched, annealed tube; a shield and a relief come on top.
 */
public final class PressureRating {
  private static final double PA_PER_BAR = 1e5;

  // EN 1595: 20 (K/S) with K/S = 7 N/mm² and the result in bar.
  private static final double BOROSILICATE_BAR = 140;

  // Scope of EN 1595, -60 °C to 300 °C (from memory, check again). The strain point is 510 °C and
  // the annealing point 560 °C (ISO 3585): in between the glass still stands but no longer holds.
  private static final double BOROSILICATE_MIN_K = 213.15;
  private static final double BOROSILICATE_MAX_K = 573.15;

  private static final double QUARTZ_STRESS_PA = 6.895e6;
  private static final double QUARTZ_CAP_PA = 7e5;

  // 1000 °C. Strain point 1393 K, 1120 °C; tables exist that print the kelvin as degrees Celsius.
  // Under load 120 K are kept below it: devitrification and creep begin before (common practice).
  private static final double QUARTZ_MAX_K = 1273.15;

  private PressureRating() {}

  /**
   * Allowed gauge overpressure inside in Pa; 0 where the glass is no pressure vessel.
   *
   * @param vessel the tube; of its glass, bore and wall
   * @param temperatureK of the hottest part of the glass in K, above 0
   * @throws IllegalArgumentException if the temperature or the tube's measures are no positive
   *     numbers
   */
  public static double allowedGaugePa(Vessel vessel, double temperatureK) {
    positive("glass temperature", temperatureK, "K");
    positive("bore of vessel " + vessel.name(), vessel.boreM(), "m");
    positive("wall of vessel " + vessel.name(), vessel.wallM(), "m");
    if (!isPressureVessel(vessel.glass(), temperatureK)) {
      return 0;
    }
    return switch (vessel.glass()) {
      case BOROSILICATE -> borosilicatePa(vessel.boreM(), vessel.wallM());
      case FUSED_QUARTZ -> quartzPa(vessel.boreM(), vessel.wallM());
    };
  }

  /** Whether the glass may hold any overpressure at {@code temperatureK}; false for NaN. */
  public static boolean isPressureVessel(Vessel.Glass glass, double temperatureK) {
    return temperatureK >= lowestK(glass) && temperatureK <= highestK(glass);
  }

  /** Highest temperature in K at which the glass may hold overpressure steadily. */
  public static double highestK(Vessel.Glass glass) {
    return switch (glass) {
      case BOROSILICATE -> BOROSILICATE_MAX_K;
      case FUSED_QUARTZ -> QUARTZ_MAX_K;
    };
  }

  /** Lowest temperature in K for which the rating is given. */
  public static double lowestK(Vessel.Glass glass) {
    return switch (glass) {
      case BOROSILICATE -> BOROSILICATE_MIN_K;
      case FUSED_QUARTZ -> 0;
    };
  }

  private static double borosilicatePa(double boreM, double wallM) {
    // od - w, with od = bore + 2 w.
    double meanDiameterM = boreM + wallM;
    return BOROSILICATE_BAR * PA_PER_BAR * wallM / meanDiameterM;
  }

  private static double quartzPa(double boreM, double wallM) {
    return StrictMath.min(QUARTZ_CAP_PA, QUARTZ_STRESS_PA * wallM / (boreM / 2));
  }

  private static void positive(String what, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "%s must be above 0 %s, got %s %s".formatted(what, unit, value, unit));
    }
  }
}
