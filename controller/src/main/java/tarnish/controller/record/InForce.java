package tarnish.controller.record;

import java.util.List;
import tarnish.shared.reading.Channel;

/**
 * Calibrations and proof tests as they stood when a batch began: the newest of each until then.
 *
 * @param known false where nobody looked
 */
public record InForce(boolean known, List<Calibrated> calibrations, List<Proved> proofs) {
  public static final InForce UNKNOWN = new InForce(false, List.of(), List.of());

  /**
   * A two-point calibration in SI units.
   *
   * @param low reference of the first point
   * @param high reference of the second point
   * @param gain correction of the slope
   * @param lowStandardUncertainty of a corrected value at the first point
   * @param highStandardUncertainty of a corrected value at the second point
   */
  public record Calibrated(
      Channel channel,
      String date,
      double low,
      double high,
      double gain,
      double lowStandardUncertainty,
      double highStandardUncertainty) {}

  /** One row of the interlock table, proved or not; dates are ISO 8601. */
  public record Proved(
      String row, boolean passed, String date, String due, String by, String how) {}
}
