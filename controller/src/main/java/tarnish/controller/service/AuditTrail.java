package tarnish.controller.service;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.atomic.AtomicInteger;
import tarnish.controller.journal.Journal.Act;

/**
 * What people did or tried, on its way into the record: page threads add, the control loop takes
 * and writes, so that no page thread holds up the loop at the disk. Any thread may call.
 */
public final class AuditTrail {
  private static final int WAITING_MAX = 1000;

  private final BlockingQueue<Act> waiting = new ArrayBlockingQueue<>(WAITING_MAX);
  private final AtomicInteger lost = new AtomicInteger();

  public void add(Act act) {
    if (!waiting.offer(act)) {
      lost.incrementAndGet();
    }
  }

  /** All that waits, oldest first; that some were lost is itself a line. */
  public List<Act> take() {
    if (waiting.isEmpty()) {
      return List.of();
    }
    List<Act> acts = new ArrayList<>();
    waiting.drainTo(acts);
    int missing = lost.getAndSet(0);
    if (missing > 0) {
      Act last = acts.get(acts.size() - 1);
      acts.add(
          new Act(last.batch(), last.wallTime(), "", "", missing + " acts more", "not recorded"));
    }
    return acts;
  }
}
