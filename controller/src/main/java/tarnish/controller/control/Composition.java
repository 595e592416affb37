package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Recipe;

/**
 * Oxygen gained per formula unit of the charge, from the gas since a reference point, and from the
 * balance at each weighing.
 *
 * <p>The reference is the charge itself at first, and after a weighing the joint estimate of gas
 * and mass, weighted by their inverse variances (JCGM 100:2008; their errors are independent: gauge
 * and volumes on one side, the balance on the other).
 *
 * @param reference oxygen per formula unit at the reference point
 * @param uptakeAtReferenceMol gas account's uptake there, in mol O₂
 */
public record Composition(Estimate reference, double uptakeAtReferenceMol) {
  /** Molar mass of O in kg/mol, IUPAC abridged 2021. */
  private static final double OXYGEN_KG_PER_MOL = 15.999e-3;

  /** Balance and handling at a small bench, standard uncertainty in kg: common practice. */
  private static final double WEIGHING_STANDARD_UNCERTAINTY_KG = 3e-6;

  static final Composition CHARGE = new Composition(Estimate.exact(0), 0);

  /** Oxygen per formula unit by the gas since the reference. */
  Estimate now(Estimate uptakeMol, Recipe recipe, double gasGain) {
    double perMol = 2 / recipe.chargeMol();
    double gained = (uptakeMol.value() - uptakeAtReferenceMol) * perMol;
    double relativeMass = recipe.charge().massStandardUncertaintyKg() / recipe.charge().massKg();
    double systematic = StrictMath.hypot(gasGain, relativeMass) * gained;
    double all = uptakeMol.standardUncertainty() * perMol;
    double gain = gasGain * uptakeMol.value() * perMol;
    double random = StrictMath.sqrt(StrictMath.max(0, all * all - gain * gain));
    double uncertainty = StrictMath.hypot(systematic, random);
    return new Estimate(
        reference.value() + gained, StrictMath.hypot(reference.standardUncertainty(), uncertainty));
  }

  /** Oxygen per formula unit by the mass of the whole solid. */
  static Estimate byMass(double massKg, Recipe recipe) {
    double gainKg = massKg - recipe.charge().massKg();
    double perKg = 1 / (recipe.chargeMol() * OXYGEN_KG_PER_MOL);
    double uncertaintyKg =
        StrictMath.hypot(
            WEIGHING_STANDARD_UNCERTAINTY_KG, recipe.charge().massStandardUncertaintyKg());
    return new Estimate(gainKg * perKg, uncertaintyKg * perKg);
  }

  static Estimate weighing(double massKg) {
    return new Estimate(massKg, WEIGHING_STANDARD_UNCERTAINTY_KG);
  }

  /** The reference after a weighing. */
  Composition joined(Estimate byGas, Estimate byMass, double uptakeMol) {
    double gasWeight = 1 / square(StrictMath.max(byGas.standardUncertainty(), 1e-9));
    double massWeight = 1 / square(StrictMath.max(byMass.standardUncertainty(), 1e-9));
    double sum = gasWeight + massWeight;
    double value = (gasWeight * byGas.value() + massWeight * byMass.value()) / sum;
    return new Composition(new Estimate(value, StrictMath.sqrt(1 / sum)), uptakeMol);
  }

  private static double square(double x) {
    return x * x;
  }
}
