package tarnish.controller.service;

import java.util.List;
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

  /** Counts what people decide by. */
  Changes changes();

  /** Where acts at the page wait to be written into the record. */
  AuditTrail audit();

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
