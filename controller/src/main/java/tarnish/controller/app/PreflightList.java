package tarnish.controller.app;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Presence;
import tarnish.controller.control.Words;
import tarnish.controller.service.Workshop.PreflightItem;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;

/** What a person must have looked at before anything is energised, each point answered. */
final class PreflightList {
  private static final String YES = "yes";
  private static final String MASS = "mass";
  private static final String WORDS = "words";
  private static final String BARRED = "barred";

  /** Scoops and boats differ a little from what was planned; more than this is another charge. */
  private static final double CHARGE_TOLERANCE = 0.005;

  private final Recipe recipe;
  private final RigDescription rig;
  private final Presence presence;
  private final ProofRecord proofs;

  PreflightList(Recipe recipe, RigDescription rig, Presence presence, ProofRecord proofs) {
    this.recipe = recipe;
    this.rig = rig;
    this.presence = presence;
    this.proofs = proofs;
  }

  List<PreflightItem> items(LocalDate today) {
    return List.of(charge(), vessel(), source(), leakTest(), proofTests(today), presence());
  }

  private PreflightItem charge() {
    return new PreflightItem(
        "charge",
        "Charge weighed in, in g",
        "The recipe says " + planned() + " of " + recipe.charge().formula() + ".",
        MASS);
  }

  private String planned() {
    return Words.mass(
        new Estimate(recipe.charge().massKg(), recipe.charge().massStandardUncertaintyKg()));
  }

  private PreflightItem vessel() {
    return new PreflightItem(
        "vessel",
        "Vessel looked at and closed",
        rig.vessel().name()
            + ", "
            + rig.vessel().glass().words()
            + ": no scratch, chip or star crack; "
            + rig.vessel().sealMaterial()
            + " seal clean and seated; hard-wired limiter set.",
        YES);
  }

  private PreflightItem source() {
    return new PreflightItem(
        "source",
        "Gas sources connected",
        gas("oxygen from", rig.oxygen()) + "; " + gas("inert gas from", rig.inert()) + ".",
        YES);
  }

  private static String gas(String what, GasSource source) {
    return what
        + " '"
        + source.name()
        + "' at "
        + Quantities.printShort(source.supplyPressurePa(), Unit.BAR);
  }

  private PreflightItem leakTest() {
    int at = firstLeakTest(recipe.steps());
    return at > 0
        ? new PreflightItem(
            "leak test",
            "Tightness",
            "Step " + at + " of the recipe tests for leaks before the first oxygen.",
            YES)
        : new PreflightItem(
            "leak test",
            "Tightness: when and how it was last proved",
            "The recipe lets oxygen in without a leak test before it.",
            WORDS);
  }

  /** Number of the first leak test, if it comes before any oxygen; else 0. */
  private static int firstLeakTest(List<Step> steps) {
    for (int i = 0; i < steps.size(); i++) {
      Step step = steps.get(i);
      if (step instanceof Step.LeakTest) {
        return i + 1;
      }
      boolean oxygen =
          step instanceof Step.Dose
              || step instanceof Step.Repeat
              || step.common().holdPressurePa().isPresent()
              || step instanceof Step.Backfill fill && fill.gas() == Step.Gas.OXYGEN;
      if (oxygen) {
        return 0;
      }
    }
    return 0;
  }

  private PreflightItem proofTests(LocalDate today) {
    if (rig.connection() == RigDescription.Connection.SIMULATED) {
      return new PreflightItem(
          "proof tests", "Proof tests", "A simulated bench: there is nothing to prove.", YES);
    }
    List<String> rows = InterlockTable.names(rig);
    List<String> overdue = proofs.overdue(rows, today);
    return overdue.isEmpty()
        ? new PreflightItem(
            "proof tests",
            "Proof tests",
            "All " + rows.size() + " rows of the interlock table are proved and not yet due.",
            YES)
        : new PreflightItem(
            "proof tests",
            "Proof tests: why the batch may start all the same",
            "Not proved, or due: " + String.join(", ", overdue) + ".",
            WORDS);
  }

  private PreflightItem presence() {
    String title = "Who is at the bench";
    if (presence.attended()) {
      return new PreflightItem("presence", title, presence.by() + " is checked in.", YES);
    }
    boolean needed =
        !recipe.steps().isEmpty()
            && recipe.steps().get(0).common().presence() == StepCommon.Presence.ATTENDED;
    return needed
        ? new PreflightItem(
            "presence", title, "The first step needs a person: check in first.", BARRED)
        : new PreflightItem(
            "presence", title, "Nobody is checked in: the unattended limits hold.", YES);
  }

  /** What is missing or wrong in the answers, one sentence each; empty if they will do. */
  static List<String> complaints(
      List<PreflightItem> items, Map<String, String> answers, Recipe recipe) {
    List<String> complaints = new ArrayList<>();
    for (PreflightItem item : items) {
      String answer = answers.getOrDefault(item.id(), "").strip();
      String complaint =
          switch (item.kind()) {
            case YES -> answer.equals(YES) ? "" : "it must be looked at and confirmed";
            case WORDS -> answer.isEmpty() ? "it needs words for the record" : "";
            case MASS -> massComplaint(answer, recipe);
            default -> item.known();
          };
      if (!complaint.isEmpty()) {
        complaints.add(item.title() + ": " + complaint);
      }
    }
    for (String id : answers.keySet()) {
      if (items.stream().noneMatch(item -> item.id().equals(id))) {
        complaints.add("There is no point '" + id + "' on the list");
      }
    }
    return complaints;
  }

  private static String massComplaint(String answer, Recipe recipe) {
    Optional<Double> given = massKg(answer);
    if (given.isEmpty()) {
      return "it needs a mass in kg, as a number";
    }
    double planned = recipe.charge().massKg();
    double tolerance =
        Math.max(5 * recipe.charge().massStandardUncertaintyKg(), CHARGE_TOLERANCE * planned);
    return Math.abs(given.get() - planned) <= tolerance
        ? ""
        : "that is another charge than the recipe's "
            + Words.mass(new Estimate(planned, recipe.charge().massStandardUncertaintyKg()))
            + "; keep a version of the recipe with what was weighed";
  }

  private static Optional<Double> massKg(String answer) {
    return answer.matches("[0-9]{1,3}([.][0-9]{1,12})?")
        ? Optional.of(Double.parseDouble(answer))
        : Optional.empty();
  }

  /** The answers as they go into the record. */
  static Map<String, String> recorded(
      List<PreflightItem> items, Map<String, String> answers, Recipe recipe) {
    Map<String, String> recorded = new LinkedHashMap<>();
    for (PreflightItem item : items) {
      String answer = answers.get(item.id()).strip();
      String words =
          item.kind().equals(MASS)
              ? "weighed "
                  + Words.mass(
                      new Estimate(
                          massKg(answer).orElseThrow(),
                          recipe.charge().massStandardUncertaintyKg()))
              : item.kind().equals(YES) ? "confirmed" : answer;
      recorded.put(item.id(), words + ". " + item.known());
    }
    return recorded;
  }
}
