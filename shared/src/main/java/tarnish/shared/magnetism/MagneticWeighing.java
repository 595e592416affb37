package tarnish.shared.magnetism;

import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.estimate.JointEstimate;

/**
 * Worksheet of a magnetic weighing: sample, reference and empty holder, each with and without the
 * magnet.
 *
 * <pre>
 *   F = Δm - Δm(holder)                  pull on the filling alone
 *   χ m - κ V = β F                      the gas it displaces is pulled the other way
 *   β = (χ_ref m_ref - κ V) / F_ref      from the reference
 *   χ_sample = (β F_sample + κ V) / m_sample
 * </pre>
 *
 * It holds if both fillings stand in the same place, in the same holder, to the same height, at the
 * same field.
 *
 * @param sample the product
 * @param reference the reference substance, weighed the same way
 * @param holder the empty holder; its masses stand for the two readings
 * @param substance the reference's susceptibility
 * @param filledM3 volume of a filling, which displaces gas; 0 leaves the gas out
 * @param gasVolumeSusceptibility κ of that gas (SI, dimensionless): air 3.8 × 10⁻⁷, argon about 0
 * @param temperatureK at the magnet
 */
public record MagneticWeighing(
    Filling sample,
    Filling reference,
    Reading holder,
    ReferenceSubstance substance,
    double filledM3,
    double gasVolumeSusceptibility,
    Estimate temperatureK) {

  /**
   * Balance readings without and with the magnet, in kg, each with its random uncertainty.
   *
   * @param withoutKg reading with the magnet away
   * @param withKg reading with the magnet; more where the sample is drawn in
   */
  public record Reading(Estimate withoutKg, Estimate withKg) {}

  /** A filled holder: readings of the whole, and the mass of the filling alone. */
  public record Filling(Reading reading, Estimate massKg) {
    public Filling {
      if (!(massKg.value() > 0)) {
        throw new IllegalArgumentException(
            "the mass of a filling must be above 0 kg, got " + massKg.value());
      }
    }
  }

  private static final double LEAST_CLEARNESS = 3;

  // Places of the inputs in the joint estimate.
  private static final int SAMPLE_PULL = 0;
  private static final int SAMPLE_KG = 1;
  private static final int REFERENCE_PULL = 2;
  private static final int REFERENCE_KG = 3;
  private static final int HOLDER_PULL = 4;
  private static final int REFERENCE_CHI = 5;
  private static final int MOLAR_KG = 6;
  private static final int DIAMAGNETIC = 7;
  private static final int KELVIN = 8;

  public MagneticWeighing {
    if (!(filledM3 >= 0) || Double.isNaN(gasVolumeSusceptibility)) {
      throw new IllegalArgumentException(
          "filled volume must be at least 0 m³ and the gas's susceptibility a number, got "
              + filledM3
              + ", "
              + gasVolumeSusceptibility);
    }
    Estimate pull = pull(reference.reading()).plusIndependent(pull(holder).times(-1));
    if (!(StrictMath.abs(pull.value()) > LEAST_CLEARNESS * pull.standardUncertainty())) {
      throw new IllegalArgumentException(
          "the magnet changes the reading of the reference no more than the balance scatters"
              + " ("
              + pull.value()
              + " kg); use more reference, a finer balance or a stronger magnet");
    }
  }

  /**
   * The moment of one magnetic centre.
   *
   * @param kgPerMolOfCentres mass of product that holds one mol of magnetic centres
   * @param diamagneticM3PerMol sum of the diamagnetic increments that belong to it (SI, negative)
   */
  public MagneticResult evaluate(Estimate kgPerMolOfCentres, Estimate diamagneticM3PerMol) {
    JointEstimate inputs =
        JointEstimate.independent(
            List.of(
                pull(sample.reading()),
                sample.massKg(),
                pull(reference.reading()),
                reference.massKg(),
                pull(holder),
                substance.massSusceptibilityM3PerKg(),
                kgPerMolOfCentres,
                diamagneticM3PerMol,
                temperatureK));
    ToDoubleFunction<double[]> corrected =
        x -> massSusceptibility(x) * x[MOLAR_KG] - x[DIAMAGNETIC];
    Estimate paramagnetic = inputs.propagate(corrected);
    return new MagneticResult(
        inputs.propagate(this::massSusceptibility),
        inputs.propagate(x -> massSusceptibility(x) * x[MOLAR_KG]),
        diamagneticM3PerMol,
        paramagnetic,
        moment(inputs, corrected, paramagnetic));
  }

  private double massSusceptibility(double[] x) {
    double gas = gasVolumeSusceptibility * filledM3;
    double referenceChi = x[REFERENCE_CHI] * substance.changeTo(x[KELVIN]);
    double perPull = (referenceChi * x[REFERENCE_KG] - gas) / (x[REFERENCE_PULL] - x[HOLDER_PULL]);
    return (perPull * (x[SAMPLE_PULL] - x[HOLDER_PULL]) + gas) / x[SAMPLE_KG];
  }

  /**
   * μ² goes as χ T and takes its uncertainty well; near zero the root does not, so a susceptibility
   * that does not stand out gives no moment.
   */
  private static Optional<Estimate> moment(
      JointEstimate inputs, ToDoubleFunction<double[]> corrected, Estimate paramagnetic) {
    if (!(paramagnetic.value() > 2 * paramagnetic.standardUncertainty())) {
      return Optional.empty();
    }
    Estimate square =
        inputs.propagate(
            x -> {
              double unit = Susceptibility.moment(1, x[KELVIN]);
              return unit * unit * corrected.applyAsDouble(x);
            });
    double moment = StrictMath.sqrt(square.value());
    return Optional.of(new Estimate(moment, square.standardUncertainty() / (2 * moment)));
  }

  private static Estimate pull(Reading reading) {
    return reading.withKg().plusIndependent(reading.withoutKg().times(-1));
  }
}
