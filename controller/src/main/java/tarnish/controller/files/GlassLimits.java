package tarnish.controller.files;

import tarnish.shared.rig.Vessel;
import tarnish.shared.rig.Vessel.Glass;

/** What a glass vessel bears, for refusing files; control has its own, finer rating. */
final class GlassLimits {
  /**
   * Allowed hoop stress p r / t in Pa: 7 MPa, for borosilicate 3.3 as K/S = 7 N/mm² of EN 1595, for
   * fused quartz 1000 psi (from memory, common practice of glassblowers).
   */
  private static final double STRESS_MAX_PA = 7e6;

  private GlassLimits() {}

  /**
   * Highest steady temperature in K. Borosilicate 300 °C: scope of EN 1595 (from memory). Fused
   * quartz 1000 °C: below its strain point, before it devitrifies quickly (common practice).
   */
  static double steadyMaxK(Glass glass) {
    return switch (glass) {
      case FUSED_QUARTZ -> 1273.15;
      case BOROSILICATE -> 573.15;
    };
  }

  /** Overpressure in Pa against the room that the tube bears: p = S t / r; none above its limit. */
  static double overpressureMaxPa(Vessel vessel, double temperatureK) {
    return temperatureK > steadyMaxK(vessel.glass())
        ? 0
        : STRESS_MAX_PA * vessel.wallM() / (vessel.boreM() / 2);
  }
}
