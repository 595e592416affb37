package tarnish.controller.service;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;
import tarnish.shared.planning.PlanLine;

/**
 * What the page may see of the running bench and ask of it. All calls are safe from any thread,
 * return at once and touch no output.
 */
public interface Bench {
  /** The newest picture of everything; never null, replaced as a whole after each tick. */
  Status status();

  /**
   * Puts a request into the bounded queue of the next tick; false if the queue is full. An abort is
   * always taken, however full the queue is.
   */
  boolean submit(Request request);

  /**
   * Starts a new batch.
   *
   * @return empty if taken, else why not, in words for the person
   */
  Optional<String> startBatch(String recipeText, String by);

  /** Recipes that can be started: name to text. */
  Map<String, String> recipes();

  /** Checks a recipe against the rig; the lines say what is wrong, or what it would do. */
  String checkRecipe(String recipeText);

  /** The planning sheet of a recipe on the rig; empty where the recipe cannot be read. */
  default List<PlanLine> planRecipe(String recipeText) {
    return List.of();
  }

  /**
   * Corners of the setpoint that a batch really followed, oldest first, at most a few hundred; a
   * setpoint of NaN says that there was none from then on. Empty where it is not known.
   */
  default List<Status.CourseLine> setpoints(int batch) {
    return List.of();
  }

  Journal journal();

  /** Size of the record on the disk in bytes; negative where it is not known. */
  default long journalBytes() {
    return -1;
  }
}
