package tarnish.sim;

import tarnish.shared.gas.TwoZoneVolume;

/**
 * k(T) = k0 exp(-E/R (1/T - 1/T0)), fast where T moves little from call to call.
 *
 * <p>The exponential is taken at an anchor; near it a series of five terms multiplies it, whose
 * error is below 1e-13. Not thread-safe.
 */
final class ArrheniusRate {
  private static final double SERIES_REACH = 0.02;

  private final double reference;
  private final double referenceInverseK;
  private final double energyOverR;
  private double anchorInverseK;
  private double anchorValue;

  ArrheniusRate(SolidSpec.Arrhenius law) {
    this.reference = law.value();
    this.referenceInverseK = 1 / law.referenceK();
    this.energyOverR = law.energyJPerMol() / TwoZoneVolume.GAS_CONSTANT;
    this.anchorInverseK = referenceInverseK;
    this.anchorValue = reference;
  }

  void takeFrom(ArrheniusRate other) {
    anchorInverseK = other.anchorInverseK;
    anchorValue = other.anchorValue;
  }

  double at(double inverseK) {
    double x = energyOverR * (anchorInverseK - inverseK);
    if (x > SERIES_REACH || x < -SERIES_REACH) {
      anchor(inverseK);
      return anchorValue;
    }
    return anchorValue
        * (1 + x * (1 + x * 0.5 * (1 + x * (1.0 / 3) * (1 + x * 0.25 * (1 + x * 0.2)))));
  }

  private void anchor(double inverseK) {
    anchorInverseK = inverseK;
    anchorValue = reference * StrictMath.exp(energyOverR * (referenceInverseK - inverseK));
  }
}
