package tarnish.controller.control;

/**
 * What is free to choose in regulation by a model. The values in use hold for every oven; a trial
 * varies them to see how much better each oven could be regulated.
 *
 * @param outerCalm how much slower than the fastest robust tuning the sample's loop is, 0 or more
 * @param innerCalm the same of the oven's loop
 * @param rounding least lag of the setpoint's corners as a share of the time that vessel and sample
 *     take to follow the oven
 * @param cornerShare share of the oven's power, or of its loss, that a corner may ask for at its
 *     sharpest; above 1 the heater is at its limit for a moment, which costs less than a slow start
 * @param landingShare the same of the oven's loss for closing in on the end of a ramp
 */
public record RegulatorTuning(
    double outerCalm, double innerCalm, double rounding, double cornerShare, double landingShare) {

  /** In use: see the trials. */
  public static final RegulatorTuning USUAL = new RegulatorTuning(2.5, 0.8, 0.02, 2.0, 2.0);

  public RegulatorTuning {
    if (!(outerCalm >= 0 && innerCalm >= 0 && rounding > 0 && cornerShare > 0)
        || !(landingShare >= 0)) {
      throw new IllegalArgumentException(
          "tuning must be at least 0, rounding and corners above 0, got "
              + outerCalm
              + ", "
              + innerCalm
              + ", "
              + rounding
              + ", "
              + cornerShare
              + ", "
              + landingShare);
    }
  }
}
