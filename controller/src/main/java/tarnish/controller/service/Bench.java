package tarnish.controller.service;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;
import tarnish.controller.record.InForce;

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

  /**
   * Corners of the setpoint that a batch really followed, oldest first, at most a few hundred; a
   * setpoint of NaN says that there was none from then on. Empty where it is not known, or not yet:
   * that of a past batch is looked up in the background.
   */
  default List<Status.CourseLine> setpoints(int batch) {
    return List.of();
  }

  /** The proof tests of the rig; empty where none are kept. */
  default Optional<ProofTests> proofTests() {
    return Optional.empty();
  }

  /** Begins to rehearse a recipe on a simulated bench; empty, or why not. */
  default Optional<String> rehearse(String recipeText) {
    return Optional.of("This bench cannot rehearse.");
  }

  /** What there is to read of the rehearsal asked for last. */
  default Rehearsed rehearsal() {
    return new Rehearsed(false, "");
  }

  /**
   * A rehearsal.
   *
   * @param running whether it is still under way
   * @param words for the person
   */
  record Rehearsed(boolean running, String words) {}

  /**
   * Between which values a rehearsal expects a running batch to be, moved to when its steps really
   * began; empty where there is no rehearsal.
   */
  default List<Status.BandLine> expected(int batch) {
    return List.of();
  }

  Journal journal();

  /** The newest picture of the bench for a person who checks it. */
  default BenchView benchView() {
    return BenchView.NONE;
  }

  /** Puts what a person asks at the bench page before the next tick; false if too much waits. */
  default boolean askBench(BenchAsk ask) {
    return false;
  }

  /** Calibrations and proof tests that held at a moment, given as ISO 8601. */
  default InForce inForce(String startedAt) {
    return InForce.UNKNOWN;
  }

  /** Size of the record on the disk in bytes; negative where it is not known. */
  default long journalBytes() {
    return -1;
  }
}
