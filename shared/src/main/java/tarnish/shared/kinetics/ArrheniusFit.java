package tarnish.shared.kinetics;

import java.util.List;
import tarnish.shared.estimate.Distributions;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.estimate.JointEstimate;
import tarnish.shared.gas.TwoZoneVolume;

/**
 * Activation energy and pre-exponential factor from rate constants of soaks at several
 * temperatures.
 *
 * <pre>ln k = ln A - Ea/(R T)</pre>
 *
 * Weighted least squares; the weight of a soak holds u(k)/k and Ea u(T)/(R T²). If the soaks
 * scatter more than that, all uncertainties are widened by √(χ²/ν); they are never narrowed.
 *
 * @param parameters ln A (k in 1/s) and Ea in J/mol, with their covariances: strongly correlated
 * @param chiSquare of the scatter about the line, before widening
 * @param degreesOfFreedom soaks less two
 */
public record ArrheniusFit(JointEstimate parameters, double chiSquare, int degreesOfFreedom) {
  private static final double GAS_CONSTANT = TwoZoneVolume.GAS_CONSTANT;

  /**
   * One soak.
   *
   * @param temperatureK above 0
   * @param temperatureStandardUncertaintyK of this soak against the others
   * @param rate k in 1/s, above 0 and with an uncertainty
   */
  public record Soak(double temperatureK, double temperatureStandardUncertaintyK, Estimate rate) {
    public Soak {
      if (!(temperatureK > 0) || !(temperatureStandardUncertaintyK >= 0)) {
        throw new IllegalArgumentException(
            "soak temperature must be above 0 K and its uncertainty at least 0 K, got "
                + temperatureK
                + " K ± "
                + temperatureStandardUncertaintyK
                + " K");
      }
      if (!(rate.value() > 0) || !(rate.standardUncertainty() > 0)) {
        throw new IllegalArgumentException(
            "a soak's rate constant and its uncertainty must be above 0, got " + rate);
      }
    }
  }

  /** Fits at least two soaks of the same law at different temperatures. */
  public static ArrheniusFit of(List<Soak> soaks) {
    if (soaks.size() < 2) {
      throw new IllegalArgumentException(
          "an activation energy needs soaks at 2 temperatures or more, got " + soaks.size());
    }
    // The weights need Ea where the temperature is uncertain; it settles in a few rounds.
    ArrheniusFit fit = weighted(soaks, 0);
    for (int round = 0; round < 5; round++) {
      fit = weighted(soaks, fit.parameters.value(1));
    }
    return fit;
  }

  private static ArrheniusFit weighted(List<Soak> soaks, double energy) {
    double sum = 0;
    double middle = 0;
    for (Soak soak : soaks) {
      sum += weight(soak, energy);
      middle += weight(soak, energy) * inverseRt(soak);
    }
    // About the mean of 1/(RT) the two parameters have nothing in common and rounding does no harm.
    middle /= sum;
    double square = 0;
    double mean = 0;
    double slope = 0;
    for (Soak soak : soaks) {
      double away = inverseRt(soak) - middle;
      double logRate = StrictMath.log(soak.rate().value());
      square += weight(soak, energy) * away * away;
      mean += weight(soak, energy) * logRate / sum;
      slope += weight(soak, energy) * away * logRate;
    }
    double ea = -slope / distinct(square);
    double chiSquare = 0;
    for (Soak soak : soaks) {
      double residual =
          StrictMath.log(soak.rate().value()) - mean + ea * (inverseRt(soak) - middle);
      chiSquare += weight(soak, energy) * residual * residual;
    }
    int freedom = soaks.size() - 2;
    double widened = freedom > 0 ? StrictMath.max(1, chiSquare / freedom) : 1;
    double energyVariance = widened / square;
    double[][] covariance = {
      {widened / sum + middle * middle * energyVariance, middle * energyVariance},
      {middle * energyVariance, energyVariance}
    };
    double[] values = {mean + ea * middle, ea};
    return new ArrheniusFit(JointEstimate.of(values, covariance), chiSquare, freedom);
  }

  private static double distinct(double square) {
    if (!(square > 0)) {
      throw new IllegalArgumentException(
          "all soaks are at one temperature; an activation energy needs two that differ");
    }
    return square;
  }

  private static double weight(Soak soak, double energy) {
    double ofRate = soak.rate().standardUncertainty() / soak.rate().value();
    double ofTemperature =
        energy * inverseRt(soak) * soak.temperatureStandardUncertaintyK() / soak.temperatureK();
    return 1 / (ofRate * ofRate + ofTemperature * ofTemperature);
  }

  private static double inverseRt(Soak soak) {
    return 1 / (GAS_CONSTANT * soak.temperatureK());
  }

  /** Ea in J/mol. */
  public Estimate activationEnergyJPerMol() {
    return parameters.at(1);
  }

  /** ln(A s). */
  public Estimate logPreFactor() {
    return parameters.at(0);
  }

  /** k in 1/s at a temperature, its uncertainty with the covariance of ln A and Ea. */
  public Estimate rateAt(double temperatureK) {
    double perRt = 1 / (GAS_CONSTANT * temperatureK);
    double logRate = parameters.value(0) - parameters.value(1) * perRt;
    double relative = parameters.standardUncertainty(new double[] {1, -perRt});
    double rate = StrictMath.exp(logRate);
    return new Estimate(rate, rate * relative);
  }

  /** Probability that soaks on one line scatter as much as these; 1 if there are only two. */
  public double probability() {
    return degreesOfFreedom == 0 ? 1 : Distributions.chiSquareUpper(chiSquare, degreesOfFreedom);
  }
}
