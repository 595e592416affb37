package tarnish.shared.recipe;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A recipe as read, in SI units, not yet tied to a batch.
 *
 * @param title what it makes
 * @param invented true for demonstration data
 * @param charge what is weighed in
 * @param chargeMolarMassKgPerMol molar mass of one formula unit of the charge
 * @param series from the charge itself upwards in oxygen content
 * @param target the wanted member of {@code series}
 * @param activationEnergyJPerMol for the Arrhenius-equivalent time; empty if the recipe gives none
 * @param reactionEnthalpyJPerMolO2 enthalpy of oxidation per mol O₂, negative when heat is
 *     released; empty if neither the recipe nor a table knows
 * @param vesselName the rig's vessel it is written for
 * @param oxygenSourceName the rig's oxygen source it is written for
 * @param steps what is done, in order
 * @param rehearsal what the stand-in operator does in a rehearsal or demonstration
 */
public record Recipe(
    String title,
    boolean invented,
    Charge charge,
    double chargeMolarMassKgPerMol,
    List<OxideMember> series,
    OxideMember target,
    OptionalDouble activationEnergyJPerMol,
    OptionalDouble reactionEnthalpyJPerMolO2,
    String vesselName,
    String oxygenSourceName,
    List<Step> steps,
    List<RehearsedPause> rehearsal) {

  public Recipe {
    series = List.copyOf(series);
    steps = List.copyOf(steps);
    rehearsal = List.copyOf(rehearsal);
  }

  /** A pause that the stand-in operator makes: when, from the start of the batch, and how long. */
  public record RehearsedPause(double afterS, double forS) {}

  /** Formula units of starting solid in mol. */
  public double chargeMol() {
    return charge.massKg() / chargeMolarMassKgPerMol;
  }

  /** O₂ in mol that turns the whole charge into the target. */
  public double oxygenNeededMol() {
    return chargeMol() * target.oxygenPerUnit() / 2;
  }
}
