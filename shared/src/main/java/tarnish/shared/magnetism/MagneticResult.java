package tarnish.shared.magnetism;

import java.util.Optional;
import tarnish.shared.estimate.Estimate;

/**
 * What a magnetic weighing says; susceptibilities in SI.
 *
 * @param massM3PerKg mass susceptibility
 * @param molarM3PerMol of one mol of magnetic centres, as measured
 * @param diamagneticM3PerMol correction, negative
 * @param paramagneticM3PerMol measured less the diamagnetic part
 * @param moment effective moment of a centre in Bohr magnetons; empty if no paramagnetism stands
 *     out
 */
public record MagneticResult(
    Estimate massM3PerKg,
    Estimate molarM3PerMol,
    Estimate diamagneticM3PerMol,
    Estimate paramagneticM3PerMol,
    Optional<Estimate> moment) {

  /** Seven unpaired electrons fill the f shell by halves; more do not occur. */
  private static final int MOST_ELECTRONS = 7;

  /**
   * The nearest spin-only moment.
   *
   * @param electrons unpaired electrons, 1 to 7
   * @param moment √(n (n + 2)) in Bohr magnetons
   * @param standardUncertaintiesAway how far the measured moment lies above (positive) or below it,
   *     in its own standard uncertainties
   */
  public record SpinOnly(int electrons, double moment, double standardUncertaintiesAway) {}

  /**
   * The spin-only moment next to the measured one; empty without a moment. A moment far from all of
   * them has an orbital part (Co²⁺, most f elements), couples with its neighbours (CuO), or belongs
   * to a mixture.
   */
  public Optional<SpinOnly> nearestSpinOnly() {
    return moment.map(MagneticResult::nearest);
  }

  private static SpinOnly nearest(Estimate measured) {
    int best = 1;
    for (int n = 2; n <= MOST_ELECTRONS; n++) {
      double away = StrictMath.abs(measured.value() - Susceptibility.spinOnly(n));
      if (away < StrictMath.abs(measured.value() - Susceptibility.spinOnly(best))) {
        best = n;
      }
    }
    double moment = Susceptibility.spinOnly(best);
    double away = measured.value() - moment;
    return new SpinOnly(best, moment, away / measured.standardUncertainty());
  }
}
