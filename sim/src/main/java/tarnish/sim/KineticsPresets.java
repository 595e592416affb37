package tarnish.sim;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.SolidDensity;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.sim.SolidSpec.Arrhenius;
import tarnish.sim.SolidSpec.OxideStep;

/**
 * Rate laws of the demonstration charges. <b>The rate constants are invented</b>: chosen so that
 * the demonstrations take a believable course, not measured on anything. Heats and equilibrium
 * pressures are published values, named beside them.
 */
public final class KineticsPresets {
  /** Oxygen pressure at which a surface rate is stated, in Pa. */
  public static final double REFERENCE_PA = 90_000;

  private static final double R = TwoZoneVolume.GAS_CONSTANT;
  private static final double ATM_PA = 101_325;
  private static final double BAR_PA = 1e5;
  private static final Arrhenius NO_EQUILIBRIUM = new Arrhenius(0, 1000, 0);
  private static final List<String> PASSIVATED_METALS = List.of("Ni", "Co", "Fe", "Pd", "Pt", "Ru");

  private KineticsPresets() {}

  /** The charge of a recipe with the rate laws that its formula asks for. */
  public static SolidSpec forRecipe(Recipe recipe) {
    List<OxideStep> steps = new ArrayList<>();
    List<OxideMember> series = recipe.series();
    for (int i = 1; i < series.size(); i++) {
      double gained = series.get(i).oxygenPerUnit() - series.get(i - 1).oxygenPerUnit();
      steps.add(step(recipe, i, gained));
    }
    List<Double> densities = series.stream().map(KineticsPresets::densityKgPerM3).toList();
    return new SolidSpec(
        recipe.chargeMol(), recipe.chargeMolarMassKgPerMol(), steps, 0.95, densities);
  }

  private static double densityKgPerM3(OxideMember member) {
    return SolidDensity.kgPerM3(Formula.parse(member.formula())).value();
  }

  private static OxideStep step(Recipe recipe, int number, double gained) {
    String formula = recipe.charge().formula();
    if (formula.equals("Cu")) {
      return number == 1 ? copperToCuprous(gained) : cuprousToCupric(gained);
    }
    if (formula.equals("BaO")) {
      return bariumPeroxide(gained);
    }
    double heat = -recipe.reactionEnthalpyJPerMolO2().orElse(-300e3);
    return PASSIVATED_METALS.contains(formula) ? passivation(gained, heat) : generic(gained, heat);
  }

  /** 4 Cu + O₂ = 2 Cu₂O: heat from dfH -168.6 kJ/mol, entropies (NBS Tables 1982; from memory). */
  static OxideStep copperToCuprous(double oxygenPerUnit) {
    return new OxideStep(
        oxygenPerUnit,
        new Arrhenius(2.5e-3, 573.15, 38e3),
        new Arrhenius(1.55e-5, 573.15, 40e3),
        0,
        0.05,
        1,
        equilibrium(337.2e3, 151.5, BAR_PA, 800),
        337.2e3);
  }

  /** 2 Cu₂O + O₂ = 4 CuO: 292.0 kJ and 220.9 J/K per mol O₂ (NBS Tables 1982; from memory). */
  static OxideStep cuprousToCupric(double oxygenPerUnit) {
    return new OxideStep(
        oxygenPerUnit,
        new Arrhenius(1.5e-3, 573.15, 50e3),
        new Arrhenius(1.55e-5, 573.15, 40e3),
        0,
        0.05,
        1,
        equilibrium(292.0e3, 220.9, BAR_PA, 800),
        292.0e3);
  }

  /**
   * 2 BaO + O₂ = 2 BaO₂. Equilibrium: ln(p/atm) = 142.689/R - 154521/(R T), a fit to Mayorova et
   * al., Thermochim. Acta 217 (1993) 241; the heat is that of the fit, so that both agree.
   */
  static OxideStep bariumPeroxide(double oxygenPerUnit) {
    return new OxideStep(
        oxygenPerUnit,
        new Arrhenius(2e-3, 800, 80e3),
        new Arrhenius(2e-4, 800, 100e3),
        0,
        0.05,
        2,
        equilibrium(154_521, 142.689, ATM_PA, 1000),
        154_521);
  }

  /** A reduced metal in air at room temperature: a fast start, and a skin that stops it. */
  static OxideStep passivation(double oxygenPerUnit, double heatJPerMolO2) {
    return new OxideStep(
        oxygenPerUnit,
        new Arrhenius(1e-2, 298.15, 20e3),
        new Arrhenius(1e-4, 298.15, 30e3),
        0.012,
        0.05,
        2,
        NO_EQUILIBRIUM,
        heatJPerMolO2);
  }

  /** For a charge that nobody has described: copper-like, a little slower. */
  static OxideStep generic(double oxygenPerUnit, double heatJPerMolO2) {
    return new OxideStep(
        oxygenPerUnit,
        new Arrhenius(2e-3, 573.15, 55e3),
        new Arrhenius(2e-5, 573.15, 80e3),
        0,
        0.05,
        2,
        NO_EQUILIBRIUM,
        heatJPerMolO2);
  }

  /** p = unit * exp(dS/R - dH/(R T)), as a value at a reference temperature. */
  private static Arrhenius equilibrium(
      double heatJPerMol, double entropyJPerMolK, double unitPa, double referenceK) {
    double logarithm = (entropyJPerMolK - heatJPerMol / referenceK) / R;
    return new Arrhenius(unitPa * StrictMath.exp(logarithm), referenceK, heatJPerMol);
  }
}
