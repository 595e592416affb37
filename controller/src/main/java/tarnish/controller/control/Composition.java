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
 * @param gasThen account of the gas at the reference point
 */
public record Composition(Estimate reference, GasAccount gasThen) {
  /** Molar mass of O in kg/mol, IUPAC abridged 2021. */
  private static final double OXYGEN_KG_PER_MOL = 15.999e-3;

  /** Balance and handling at a small bench, standard uncertainty in kg: common practice. */
  private static final double WEIGHING_STANDARD_UNCERTAINTY_KG = 3e-6;

  static final Composition CHARGE = new Composition(Estimate.exact(0), GasAccount.EMPTY);

  /** Oxygen per formula unit by the gas since the reference. */
  Estimate now(GasAccount gas, Recipe recipe, double gasGain) {
    double perMol = 2 / recipe.chargeMol();
    Estimate gained = gas.uptakeSince(gasThen, gasGain).times(perMol);
    double relativeMass = recipe.charge().massStandardUncertaintyKg() / recipe.charge().massKg();
    return reference
        .plusIndependent(gained)
        .plusIndependent(new Estimate(0, StrictMath.abs(relativeMass * gained.value())));
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
  Composition joined(Estimate byGas, Estimate byMass, GasAccount gas) {
    double gasWeight = 1 / square(StrictMath.max(byGas.standardUncertainty(), 1e-9));
    double massWeight = 1 / square(StrictMath.max(byMass.standardUncertainty(), 1e-9));
    double sum = gasWeight + massWeight;
    double value = (gasWeight * byGas.value() + massWeight * byMass.value()) / sum;
    return new Composition(new Estimate(value, StrictMath.sqrt(1 / sum)), gas);
  }

  private static double square(double x) {
    return x * x;
  }
}
