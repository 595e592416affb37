package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Recipe.RehearsedPause;
import tarnish.shared.recipe.Recipe.WhenAlone;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.RigDescription;

/** Reads recipe files, strictly: everything wrong with one is told, and then nothing is run. */
public final class RecipeReader {
  private static final List<String> KEYS =
      List.of(
          "recipe",
          "invented",
          "charge",
          "series",
          "target",
          "activation energy",
          "reaction enthalpy",
          "vessel",
          "oxygen source",
          "steps",
          "rehearsal",
          "alone");

  private static final int MOST_STEPS = 500;

  private final Faults faults;
  private final Optional<RigDescription> rig;

  private RecipeReader(Faults faults, Optional<RigDescription> rig) {
    this.faults = faults;
    this.rig = rig;
  }

  /**
   * Reads a recipe and, where a rig is given, holds it against that rig's limits.
   *
   * @param fileName for messages only
   */
  public static ReadResult<Recipe> read(
      String fileName, String text, Optional<RigDescription> rig) {
    return FileText.check(fileName, text)
        .then(
            checked -> {
              Faults faults = new Faults(fileName);
              Optional<Node> root = NodeReader.read(checked, faults);
              return root.isPresent()
                  ? new RecipeReader(faults, rig).read(root.get())
                  : ReadResult.faulty(faults.list());
            });
  }

  private ReadResult<Recipe> read(Node root) {
    Fields fields = new Fields(root, "the recipe", faults, KEYS);
    String title = fields.text("recipe", "Copper powder to copper(II) oxide");
    boolean invented = fields.yesNoOr("invented", false);
    Optional<Charge> charge =
        fields.node("charge", "{formula: Cu, mass: 4.000 g ± 1 mg}").map(this::charge);
    String formula = charge.map(Charge::formula).orElse("");
    List<OxideMember> series = series(fields, formula);
    Optional<OxideMember> target = target(fields, series);
    OptionalDouble activation =
        fields.optionalQuantity("activation energy", Bound.ACTIVATION_ENERGY);
    OptionalDouble enthalpy = fields.optionalQuantity("reaction enthalpy", Bound.ENTHALPY);
    String vessel = fields.text("vessel", "quartz tube A");
    String source = fields.text("oxygen source", "bottle");
    rig.ifPresent(bench -> checkNames(fields, bench, vessel, source));
    List<Step> steps = steps(fields);
    List<RehearsedPause> pauses =
        fields.optionalNode("rehearsal").map(this::rehearsal).orElse(List.of());
    WhenAlone alone =
        fields
            .optionalNode("alone")
            .map(node -> AloneReader.read(node, faults))
            .orElse(WhenAlone.CAUTIOUS);
    return faults.result(
        () ->
            new Recipe(
                title,
                invented,
                charge.orElseThrow(),
                molarMass(formula),
                series,
                target.orElseThrow(),
                activation,
                enthalpy,
                vessel,
                source,
                steps,
                pauses,
                alone));
  }

  private Charge charge(Node node) {
    Fields fields = new Fields(node, "charge", faults, List.of("formula", "mass"));
    String formula = fields.text("formula", "Cu");
    Estimate mass = fields.estimate("mass", Bound.MASS, "4.000 g ± 1 mg");
    if (!formula.isEmpty()) {
      try {
        SeriesReader.molarMassKgPerMol(formula);
      } catch (SeriesReader.Unfit unfit) {
        fields.fault("formula", unfit.found, unfit.expected);
        formula = "";
      }
    }
    return new Charge(formula, mass.value(), mass.standardUncertainty());
  }

  private static double molarMass(String formula) {
    try {
      return SeriesReader.molarMassKgPerMol(formula);
    } catch (SeriesReader.Unfit alreadyTold) {
      throw new IllegalStateException(alreadyTold);
    }
  }

  private List<OxideMember> series(Fields fields, String charge) {
    List<OxideMember> series = new ArrayList<>();
    Optional<Node> node = fields.node("series", "[Cu, Cu2O, CuO]");
    if (node.isEmpty()) {
      return series;
    }
    if (!(node.get() instanceof Node.Sequence list) || list.items().size() < 2) {
      fields.fault(
          "series",
          node.get() instanceof Node.Sequence ? "fewer than two members" : node.get().words(),
          "formulas from the charge upwards in oxygen, e.g. [Cu, Cu2O, CuO]");
      return series;
    }
    for (Node item : list.items()) {
      member(item, charge, series);
    }
    return series;
  }

  private void member(Node item, String charge, List<OxideMember> series) {
    if (!(item instanceof Node.Scalar scalar)) {
      faults.add(item.place(), item.words(), "a chemical formula, e.g. Cu2O");
      return;
    }
    if (charge.isEmpty()) {
      return;
    }
    try {
      OxideMember member = SeriesReader.member(charge, scalar.text());
      if (series.isEmpty() && !member.formula().equals(charge)) {
        faults.add(
            item.place(),
            "'" + member.formula() + "' first in the series",
            "the charge, " + charge);
      } else if (!series.isEmpty()
          && !(member.oxygenPerUnit() > series.get(series.size() - 1).oxygenPerUnit())) {
        faults.add(
            item.place(),
            "'" + member.formula() + "' after '" + series.get(series.size() - 1).formula() + "'",
            "members in order of rising oxygen content");
      }
      series.add(member);
    } catch (SeriesReader.Unfit unfit) {
      faults.add(item.place(), unfit.found, unfit.expected);
    }
  }

  private Optional<OxideMember> target(Fields fields, List<OxideMember> series) {
    String wanted = fields.text("target", "CuO");
    Optional<OxideMember> target =
        series.stream().filter(member -> member.formula().equals(wanted)).findFirst();
    if (!wanted.isEmpty() && !series.isEmpty()) {
      List<String> above = series.stream().skip(1).map(OxideMember::formula).toList();
      if (!above.contains(wanted)) {
        fields.fault(
            "target",
            "'" + Faults.shortened(wanted) + "'",
            "a member of the series above the charge: " + String.join(", ", above));
      }
    }
    return target;
  }

  private static void checkNames(Fields fields, RigDescription rig, String vessel, String source) {
    checkName(fields, "vessel", vessel, rig.vessel().name(), rig);
    checkName(fields, "oxygen source", source, rig.oxygen().name(), rig);
  }

  private static void checkName(
      Fields fields, String key, String written, String fitted, RigDescription rig) {
    if (!written.isEmpty() && !written.equals(fitted)) {
      fields.fault(
          key,
          fields.written(key),
          "'" + fitted + "', the " + key + " of the rig '" + rig.name() + "'");
    }
  }

  private List<Step> steps(Fields fields) {
    Optional<Node> node = fields.node("steps", "a list of steps");
    if (node.isEmpty()) {
      return List.of();
    }
    StepReader reader = new StepReader(faults);
    List<StepDraft> read = reader.read(node.get(), 0);
    List<StepDraft> drafts = PresenceRules.settle(read, faults);
    StepRules.check(drafts);
    rig.ifPresent(bench -> new StepLimits(bench).check(drafts));
    if (reader.isComplete()) {
      StepWalk.check(drafts, rig);
    }
    List<Step> steps = drafts.stream().map(StepDraft::step).toList();
    long count = StepCount.steps(steps);
    if (count > MOST_STEPS) {
      faults.add(
          node.get().place(), count + " steps with every repeat run out", "at most " + MOST_STEPS);
    }
    return steps;
  }

  private List<RehearsedPause> rehearsal(Node node) {
    Fields fields = new Fields(node, "rehearsal", faults, List.of("pauses"));
    List<RehearsedPause> pauses = new ArrayList<>();
    Optional<Node> list = fields.node("pauses", "[{after: 9 h, for: 90 min}]");
    if (list.isPresent() && list.get() instanceof Node.Sequence sequence) {
      sequence.items().forEach(item -> pauses.add(pause(item)));
    } else if (list.isPresent()) {
      fields.fault("pauses", list.get().words(), "a list, e.g. [{after: 9 h, for: 90 min}]");
    }
    return pauses;
  }

  private RehearsedPause pause(Node node) {
    Fields fields = new Fields(node, "pause", faults, List.of("after", "for"));
    double afterS = fields.quantity("after", Bound.TIME, "9 h");
    double forS = fields.quantity("for", Bound.SOME_TIME, "90 min");
    return new RehearsedPause(afterS, forS);
  }
}
