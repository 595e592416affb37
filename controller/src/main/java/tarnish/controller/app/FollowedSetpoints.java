package tarnish.controller.app;

import java.util.List;
import tarnish.controller.control.ControlState;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Status;

/**
 * The setpoints that batches really followed: of the one in hand as it goes, of past ones from
 * their record. One thread follows, any looks.
 */
final class FollowedSetpoints {
  private final PastSetpoints past;
  private volatile SetpointTrace trace = new SetpointTrace();

  FollowedSetpoints(SqliteJournal journal) {
    past = new PastSetpoints(journal);
  }

  /** Begins anew, for another batch. */
  void begin() {
    trace = new SetpointTrace();
  }

  void follow(ControlState state) {
    trace.follow(state);
  }

  /**
   * @param inHand number of the batch in hand; null where there is none
   */
  List<Status.CourseLine> of(int number, Integer inHand) {
    SetpointTrace now = trace;
    return inHand != null && inHand == number ? now.corners() : past.of(number);
  }
}
