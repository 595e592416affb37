package tarnish.shared.gas;

import java.util.List;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.estimate.JointEstimate;

/**
 * The hot volume of a vessel by expanding inert gas from a bulb of known volume into it.
 *
 * <pre>
 *   p1 V0/T0 + p0 (Vh/Th + Vc/Tc) = p2 (V0/T0 + Vh/Th + Vc/Tc)
 *   Vh = Th (V0/T0 (p1 - p2)/(p2 - p0) - Vc/Tc)
 * </pre>
 *
 * Only a ratio of pressures enters: where one gauge reads all three, its gain cancels.
 */
public final class Expansion {
  private Expansion() {}

  /**
   * Hot volume in m³.
   *
   * @param bulbM3 V0, valve and tube to it included
   * @param coldM3 Vc of the vessel
   * @param bulbPa p1 in the bulb before
   * @param beforePa p0 in the vessel before, well below p1
   * @param afterPa p2 in both afterwards
   * @param hotK Th of the gas in the oven
   * @param roomK T0 and Tc
   * @throws IllegalArgumentException if the pressures do not lie in order, or nothing would be hot
   */
  public static Estimate hotM3(
      Estimate bulbM3,
      Estimate coldM3,
      Estimate bulbPa,
      Estimate beforePa,
      Estimate afterPa,
      Estimate hotK,
      Estimate roomK) {
    if (!(beforePa.value() < afterPa.value()) || !(afterPa.value() < bulbPa.value())) {
      throw new IllegalArgumentException(
          "the pressure after the expansion must lie between that of the vessel and that of the bulb,"
              + " got "
              + beforePa.value()
              + " Pa, "
              + afterPa.value()
              + " Pa and "
              + bulbPa.value()
              + " Pa");
    }
    JointEstimate inputs =
        JointEstimate.independent(List.of(bulbM3, coldM3, bulbPa, beforePa, afterPa, hotK, roomK));
    Estimate hot =
        inputs.propagate(x -> x[5] * (x[0] / x[6] * (x[2] - x[4]) / (x[4] - x[3]) - x[1] / x[6]));
    if (!(hot.value() > 0)) {
      throw new IllegalArgumentException(
          "these pressures leave no hot volume: the cold volume, or a pressure, is wrong");
    }
    return hot;
  }
}
