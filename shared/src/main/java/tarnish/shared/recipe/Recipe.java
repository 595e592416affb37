package tarnish.shared.recipe;

import java.util.List;
import java.util.Optional;
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
 * @param whenAlone what the batch may do with nobody there
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
    List<RehearsedPause> rehearsal,
    WhenAlone whenAlone) {

  public Recipe {
    series = List.copyOf(series);
    steps = List.copyOf(steps);
    rehearsal = List.copyOf(rehearsal);
  }

  /** A recipe that says nothing about being alone. */
  public Recipe(
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
    this(
        title,
        invented,
        charge,
        chargeMolarMassKgPerMol,
        series,
        target,
        activationEnergyJPerMol,
        reactionEnthalpyJPerMolO2,
        vesselName,
        oxygenSourceName,
        steps,
        rehearsal,
        WhenAlone.CAUTIOUS);
  }

  /** The same with other steps. */
  public Recipe withSteps(List<Step> others) {
    return new Recipe(
        title,
        invented,
        charge,
        chargeMolarMassKgPerMol,
        series,
        target,
        activationEnergyJPerMol,
        reactionEnthalpyJPerMolO2,
        vesselName,
        oxygenSourceName,
        others,
        rehearsal,
        whenAlone);
  }

  /** What a batch does when a check-in runs out; the words are those of a recipe file. */
  public enum Overdue {
    /** Goes on under the unattended limits; a step that needs a person pauses all the same. */
    GO_ON("go on"),
    PAUSE("pause");

    private final String words;

    Overdue(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /**
   * When a batch may go on by itself after a power cut, all of it together.
   *
   * @param outageMaxS longest outage
   * @param temperatureMinK coldest sample
   * @param temperatureMaxK hottest sample
   * @param pressureMinPa lowest vessel pressure
   * @param pressureMaxPa highest vessel pressure
   */
  public record Resume(
      double outageMaxS,
      double temperatureMinK,
      double temperatureMaxK,
      double pressureMinPa,
      double pressureMaxPa) {}

  /**
   * What the batch may do with nobody there.
   *
   * @param overdue when a check-in runs out
   * @param afterPowerCut when it may go on after a power cut; empty: never by itself
   */
  public record WhenAlone(Overdue overdue, Optional<Resume> afterPowerCut) {
    /** Goes on under the unattended limits, and is held after any power cut. */
    public static final WhenAlone CAUTIOUS = new WhenAlone(Overdue.GO_ON, Optional.empty());
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
