package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.Act;
import tarnish.controller.journal.JournalException;
import tarnish.controller.service.AuditTrail;

/** Writes down what people did and tried. Used by the control loop only. */
final class ActRecorder {
  private static final int UNWRITTEN_MAX = 1000;

  private final AuditTrail trail;
  private final Journal journal;
  private List<Act> unwritten = List.of();

  ActRecorder(AuditTrail trail, Journal journal) {
    this.trail = trail;
    this.journal = journal;
  }

  /** What cannot be written now is kept and written with the next tick that can. */
  void record() {
    List<Act> fresh = trail.take();
    if (fresh.isEmpty() && unwritten.isEmpty()) {
      return;
    }
    List<Act> all = new ArrayList<>(unwritten);
    all.addAll(fresh);
    try {
      journal.record(all);
      unwritten = List.of();
    } catch (JournalException e) {
      unwritten = all.subList(Math.max(0, all.size() - UNWRITTEN_MAX), all.size());
    }
  }
}
