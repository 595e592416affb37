package tarnish.controller.app;

import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.SqliteJournal;

/**
 * Puts every tick of a batch into the journal, up to its final state. A journal that cannot be
 * written is a trouble for control, not the end of the loop.
 */
final class TickRecorder {
  private static final Logger LOG = LoggerFactory.getLogger(TickRecorder.class);

  private final SqliteJournal journal;
  private final long seed;
  private final ShellTroubles troubles;
  private boolean recording;
  private boolean failed;

  TickRecorder(SqliteJournal journal, long seed, ShellTroubles troubles) {
    this.journal = journal;
    this.seed = seed;
    this.troubles = troubles;
  }

  /** A batch has been put in hand. */
  void begin() {
    recording = true;
  }

  /** True if the batch has ended with this tick. */
  boolean record(LiveBatch batch, List<Request> requests, Turn turn) {
    if (!recording) {
      return false;
    }
    BenchRun run = batch.run();
    try {
      journal.tick(
          batch.number(),
          run.millis(),
          batch.wallTime().toString(),
          run.readings(),
          requests,
          turn.outputs(),
          turn.events());
      failed = false;
      if (turn.state().phase().isFinal()) {
        recording = false;
        RehearsalResult result = RehearsalResult.of(run, seed, 1, "");
        journal.end(batch.number(), result.endState(), result.recordJson());
        LOG.info("Batch {} is {}.", batch.number(), result.endState());
        return true;
      }
    } catch (JournalException e) {
      if (!failed) {
        LOG.error("{}", e.getMessage());
        troubles.tell(InterlockTable.JOURNAL_NOT_WRITABLE, e.getMessage());
      }
      failed = true;
    }
    return false;
  }
}
