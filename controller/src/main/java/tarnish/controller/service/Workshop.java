package tarnish.controller.service;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.controller.control.Request;
import tarnish.controller.control.StepChange;
import tarnish.controller.library.PhotoStore;
import tarnish.controller.library.RecipeLibrary;

/**
 * What is prepared and looked at before anything is energised: recipes and their versions, checks,
 * rehearsals, the list before a start. Safe from any thread; touches no output.
 */
public interface Workshop {
  RecipeLibrary library();

  PhotoStore photos();

  /** Holds a recipe against the rig. */
  RecipeReport check(String recipeText);

  /** What a change of a step, or a skipped soak, would do to the batch that runs now. */
  ChangeReport preview(Request change);

  /**
   * Begins to rehearse a recipe, or the batch that runs now with a change, or finds that rehearsal
   * again. One runs at a time, with the least priority.
   *
   * @param change null for a mere recipe
   * @return the rehearsal, or empty if too many wait
   */
  Optional<RehearsalReport> rehearse(String recipeText, Request change);

  /** A rehearsal by its id, if it is still known. */
  Optional<RehearsalReport> rehearsal(String id);

  /**
   * Starts a batch after the list before the start.
   *
   * @param answers by the id of each item
   * @return empty if taken, else why not, in words for the person
   */
  Optional<String> start(String recipeText, String by, Map<String, String> answers);

  /** One fault and its place, from 1. */
  record FaultLine(int line, int column, String message) {}

  /** One line of the planning sheet; {@code verdict} is ok, warning or open. */
  record PlanLine(String verdict, String what, String value, String source) {}

  /**
   * A recipe held against the rig.
   *
   * @param sha256 of its text
   * @param result the outcome in lines of text, as the command line gives it
   * @param faults in the order of the text; empty where it is good
   * @param plan the planning sheet; empty where there are faults
   * @param preflight the list before the start; likewise
   */
  record RecipeReport(
      boolean good,
      String sha256,
      String result,
      List<FaultLine> faults,
      List<PlanLine> plan,
      List<PreflightItem> preflight) {}

  /**
   * One item of the list before the start.
   *
   * @param kind how it is answered: yes, mass (in kg), words; or barred, when it cannot be now
   */
  record PreflightItem(String id, String title, String known, String kind) {}

  /**
   * What a change would do.
   *
   * @param refusal why it may not be, or empty
   * @param endsNow when the batch ends as it is, in words; null where not known
   * @param endsThen when it would end
   */
  record ChangeReport(
      String refusal, List<StepChange.Difference> differences, String endsNow, String endsThen) {}

  /**
   * A rehearsal.
   *
   * @param state waiting, running, done or failed
   * @param good whether it ended complete
   * @param summary one sentence; empty until it is done
   * @param words everything, in lines
   */
  record RehearsalReport(String id, String state, boolean good, String summary, String words) {}

  /**
   * A number of a step to come that may be changed.
   *
   * @param word as in a recipe file
   * @param value in SI units
   * @param factor SI units of one of {@code unit}; a temperature in °C is shifted instead
   */
  record StepNumber(String word, double value, String printed, String unit, double factor) {}

  /** A step whose numbers may be changed; {@code now} for the soak under way. */
  record OpenStep(int position, String title, boolean now, List<StepNumber> numbers) {}

  /** Steps whose numbers may be changed now, in order. */
  List<OpenStep> openSteps();
}
