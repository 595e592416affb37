package tarnish.shared.planning;

import java.util.Optional;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.ReactionHeat;
import tarnish.shared.chemistry.SolidHeatCapacity;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** For each dose step: the amount, number and heat of its pulses. */
final class DoseLines {
  /** Heat of reaction in J/mol O₂, negative, and where it comes from. */
  private record Heat(double joulePerMol, String source) {}

  private DoseLines() {}

  static void add(Sheet sheet, Recipe recipe, RigDescription rig, StepWalk walk) {
    Optional<Heat> heat = heat(recipe);
    if (heat.isEmpty() && !walk.doses.isEmpty()) {
      sheet.words(
          Verdict.OPEN,
          "heat of reaction",
          "not known",
          "neither the recipe nor the NBS tables give it; without it no dose can be called small");
    }
    for (StepWalk.Dose dose : walk.doses) {
      double pulseMol =
          dose.step().pulsePa()
              / TwoZoneVolume.GAS_CONSTANT
              * rig.vessel().volume().volumeOverTemperature(dose.temperatureK(), Sheet.ROOM_K);
      double oxygenMol = pulseMol * rig.oxygen().oxygenFraction();
      String title = dose.step().common().title();
      sheet.ok(
          title + ": gas in one pulse",
          Sheet.print(pulseMol, Unit.MILLIMOLE, 2),
          new Number(pulseMol, "mol"),
          Sheet.print(dose.step().pulsePa(), Unit.MILLIBAR, 3)
              + " in the vessel, hot part at "
              + Quantities.print(dose.temperatureK(), Unit.CELSIUS, 0));
      addPulses(sheet, recipe, dose, oxygenMol);
      heat.ifPresent(h -> addHeat(sheet, recipe, dose, oxygenMol, h));
    }
  }

  private static void addPulses(Sheet sheet, Recipe recipe, StepWalk.Dose dose, double oxygenMol) {
    double byPressure = dose.pulsesByPressure();
    double byOxygen = StrictMath.ceil(recipe.oxygenNeededMol() / oxygenMol - 1e-9);
    int most = dose.step().pulsesMax();
    boolean enough = most >= byPressure;
    sheet.line(
        Sheet.okIf(enough),
        dose.step().common().title() + ": pulses",
        "%.0f to the end pressure, %s for all the oxygen"
            .formatted(byPressure, "about " + Sheet.digits(byOxygen, 2)),
        new Number(byPressure, "1"),
        "first if nothing is taken up, second if all is; at most "
            + most
            + " allowed"
            + (enough ? "" : ", which does not reach the end pressure"));
  }

  private static void addHeat(
      Sheet sheet, Recipe recipe, StepWalk.Dose dose, double oxygenMol, Heat heat) {
    String title = dose.step().common().title();
    double joule = -heat.joulePerMol() * oxygenMol;
    sheet.ok(
        title + ": heat of one pulse",
        Sheet.digits(joule, 2) + " J",
        new Number(joule, "J"),
        "all of it taken up; " + heat.source());
    SolidHeatCapacity capacity = SolidHeatCapacity.of(Formula.parse(recipe.charge().formula()));
    double riseK = joule / (recipe.chargeMol() * capacity.joulePerMolK());
    boolean within = dose.temperatureK() + riseK <= dose.limits().sampleMaxK();
    sheet.line(
        Sheet.okIf(within),
        title + ": adiabatic rise of the solid",
        Sheet.print(riseK, Unit.KELVIN_DIFFERENCE, 2),
        new Number(riseK, "K"),
        "all of it at once, no heat lost, solid still "
            + recipe.charge().formula()
            + "; heat capacity: "
            + capacity.source()
            + (within
                ? ""
                : "; takes the sample above its limit of "
                    + Quantities.printShort(dose.limits().sampleMaxK(), Unit.CELSIUS)
                    + ": make the pulse smaller"));
  }

  private static Optional<Heat> heat(Recipe recipe) {
    if (recipe.reactionEnthalpyJPerMolO2().isPresent()) {
      double enthalpy = recipe.reactionEnthalpyJPerMolO2().getAsDouble();
      return Optional.of(
          new Heat(
              enthalpy,
              Sheet.print(enthalpy, Unit.KILOJOULE_PER_MOLE, 3) + " of O2, by the recipe"));
    }
    return ReactionHeat.between(recipe.charge().formula(), recipe.target().formula())
        .map(
            table ->
                new Heat(
                    table.enthalpyJPerMolO2(),
                    Sheet.print(table.enthalpyJPerMolO2(), Unit.KILOJOULE_PER_MOLE, 3)
                        + " of O2, "
                        + table.source().citation()
                        + (table.fromMemory() ? ", from memory" : "")));
  }
}
