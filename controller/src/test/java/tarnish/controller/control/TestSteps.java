package tarnish.controller.control;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Question;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;

/** Short ways to write steps and recipes in tests. All recipes are invented. */
final class TestSteps {
  static final OptionalDouble NONE = OptionalDouble.empty();

  private TestSteps() {}

  /** 4 g of copper on the way to copper(II) oxide. */
  static Recipe recipe(Step... steps) {
    return recipeTo(new OxideMember("CuO", 1), steps);
  }

  static Recipe recipeTo(OxideMember target, Step... steps) {
    return new Recipe(
        "test recipe",
        true,
        new Charge("Cu", 4e-3, 1e-6),
        0.063546,
        List.of(new OxideMember("Cu", 0), new OxideMember("Cu2O", 0.5), new OxideMember("CuO", 1)),
        target,
        OptionalDouble.of(80e3),
        OptionalDouble.of(-312e3),
        "quartz tube",
        "bottle",
        List.of(steps),
        List.of());
  }

  /** The same, but nobody has said what heat its reaction gives. */
  static Recipe withoutHeat(Step... steps) {
    Recipe known = recipe(steps);
    return new Recipe(
        known.title(),
        known.invented(),
        known.charge(),
        known.chargeMolarMassKgPerMol(),
        known.series(),
        known.target(),
        known.activationEnergyJPerMol(),
        OptionalDouble.empty(),
        known.vesselName(),
        known.oxygenSourceName(),
        known.steps(),
        known.rehearsal());
  }

  static StepCommon unattended(String title) {
    return new StepCommon(title, NONE, StepCommon.Presence.UNATTENDED, NONE);
  }

  static StepCommon attended(String title) {
    return new StepCommon(title, NONE, StepCommon.Presence.ATTENDED, NONE);
  }

  static StepCommon limited(String title, double timeLimitS) {
    return new StepCommon(
        title, NONE, StepCommon.Presence.UNATTENDED, OptionalDouble.of(timeLimitS));
  }

  static StepCommon holding(String title, double holdPa) {
    return new StepCommon(title, OptionalDouble.of(holdPa), StepCommon.Presence.UNATTENDED, NONE);
  }

  static Step.Ramp ramp(double toK, double rateKPerS) {
    return new Step.Ramp(unattended("Ramp"), toK, rateKPerS);
  }

  static Step.Soak soak(double atK, double durationS, double bandK) {
    return new Step.Soak(unattended("Soak"), atK, durationS, bandK);
  }

  static Step.Cool cool(double toK) {
    return new Step.Cool(unattended("Cool"), toK, NONE);
  }

  static Step.Evacuate evacuate(double toPa) {
    return new Step.Evacuate(unattended("Evacuate"), toPa);
  }

  static Step.LeakTest leakTest(double settleS, double durationS, double riseMaxPaPerS) {
    return new Step.LeakTest(unattended("Leak test"), settleS, durationS, riseMaxPaPerS);
  }

  static Step.Ask ask(Question... questions) {
    return new Step.Ask(attended("Ask"), "Weigh the product", List.of(questions));
  }

  static Question mass(String name) {
    return new Question(name, Question.Kind.MASS, NONE);
  }

  static Question remark(String name) {
    return new Question(name, Question.Kind.REMARK, NONE);
  }

  static Step.Open open(Question... questions) {
    return new Step.Open(attended("Open"), 313.15, 2, 90_000, 500, List.of(questions));
  }

  static Step.Repeat repeat(int times, RepeatUntil until, Step... steps) {
    return new Step.Repeat(unattended("Repeat"), times, until, List.of(steps));
  }
}
