package tarnish.shared.oven;

/**
 * A fitted model with what is known about it.
 *
 * @param model the fit
 * @param standardUncertainty of each parameter, in the order of {@link OvenModel}'s components
 * @param covariance of the parameters on the scale they are fitted on (logarithm, or logit for a
 *     share), same order
 * @param ovenRmsK root mean square of measured minus fitted oven temperature
 * @param sampleRmsK the same of the sample
 * @param inflation factor on the variances for residuals that are larger than the noise or depend
 *     on each other, 1 for pure noise
 * @param iterations it took
 */
public record OvenFit(
    OvenModel model,
    double[] standardUncertainty,
    double[][] covariance,
    double ovenRmsK,
    double sampleRmsK,
    double inflation,
    int iterations) {

  /** Largest residual, root mean square, of a model fit to regulate by, in K: common practice. */
  public static final double GOOD_RMS_K = 1.5;

  /** Whether the model follows the oven well enough to regulate by it. */
  public boolean isGood() {
    return ovenRmsK <= GOOD_RMS_K && sampleRmsK <= GOOD_RMS_K;
  }

  /** Standard uncertainty of a parameter relative to its value, on the fitted scale. */
  public double freeUncertainty(int parameter) {
    return StrictMath.sqrt(covariance[parameter][parameter]);
  }
}
