package tarnish.controller.app;

import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import tarnish.controller.control.Request;

/**
 * What the live bench has in hand: a batch, or only a bench that is watched.
 *
 * @param run of control on the bench
 * @param number of the batch in the journal; null where there is none
 * @param recipeText as it began; empty where there is none
 * @param startedAt calendar time of its beginning
 * @param standIn the person of a demonstration; null where there is none
 * @param first request of its first tick; null where there is none
 */
record LiveBatch(
    BenchRun run,
    Integer number,
    String recipeText,
    OffsetDateTime startedAt,
    StandInOperator standIn,
    Request first) {

  /** Calendar time of the last tick. */
  OffsetDateTime wallTime() {
    return startedAt.plus(run.millis(), ChronoUnit.MILLIS);
  }
}
