package tarnish.controller.files;

import java.util.List;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;

/**
 * A recipe all of whose steps need a person: what a bench with overdue proof tests may run. The
 * batch's note says so, and whoever reads the batch again applies it again.
 */
public final class AttendedOnly {
  private static final String MARK = "attended only";

  private AttendedOnly() {}

  /** A note that says so. */
  public static String note(String note, String why) {
    return note + "; " + MARK + ": " + why;
  }

  /** The recipe as the batch with this note ran it. */
  public static Recipe asNoted(Recipe recipe, String note) {
    return note != null && note.contains("; " + MARK + ": ") ? of(recipe) : recipe;
  }

  public static Recipe of(Recipe r) {
    return new Recipe(
        r.title(),
        r.invented(),
        r.charge(),
        r.chargeMolarMassKgPerMol(),
        r.series(),
        r.target(),
        r.activationEnergyJPerMol(),
        r.reactionEnthalpyJPerMolO2(),
        r.vesselName(),
        r.oxygenSourceName(),
        steps(r.steps()),
        r.rehearsal(),
        r.whenAlone());
  }

  private static List<Step> steps(List<Step> steps) {
    return steps.stream().map(AttendedOnly::step).toList();
  }

  private static StepCommon common(Step step) {
    StepCommon c = step.common();
    return new StepCommon(
        c.title(), c.holdPressurePa(), StepCommon.Presence.ATTENDED, c.timeLimitS());
  }

  private static Step step(Step step) {
    StepCommon c = common(step);
    if (step instanceof Step.Evacuate s) {
      return new Step.Evacuate(c, s.toPa());
    }
    if (step instanceof Step.LeakTest s) {
      return new Step.LeakTest(c, s.settleS(), s.durationS(), s.riseMaxPaPerS());
    }
    if (step instanceof Step.Backfill s) {
      return new Step.Backfill(c, s.gas(), s.toPa(), s.cycles(), s.evacuateToPa());
    }
    if (step instanceof Step.Dose s) {
      return new Step.Dose(
          c,
          s.pulsePa(),
          s.toPa(),
          s.pulsesMax(),
          s.heatSettledK(),
          s.uptakeSlowedPaPerS(),
          s.waitMinS(),
          s.waitMaxS(),
          s.riseMaxK());
    }
    return thermal(step, c);
  }

  private static Step thermal(Step step, StepCommon c) {
    if (step instanceof Step.Ramp s) {
      return new Step.Ramp(c, s.toK(), s.rateKPerS());
    }
    if (step instanceof Step.Soak s) {
      return new Step.Soak(c, s.atK(), s.durationS(), s.bandK());
    }
    if (step instanceof Step.Cool s) {
      return new Step.Cool(c, s.toK(), s.rateKPerS());
    }
    if (step instanceof Step.Repeat s) {
      return new Step.Repeat(c, s.timesMax(), s.until(), steps(s.steps()));
    }
    // Opening and asking need a person anyway.
    return step;
  }
}
