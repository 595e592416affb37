package tarnish.controller.app;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.access.Background;
import tarnish.controller.access.NewestKept;
import tarnish.controller.control.Words;
import tarnish.controller.service.Workshop.RehearsalReport;

/**
 * Rehearsals that the page asked for: one at a time on a thread with the least priority, a few
 * waiting, the newest kept. Any thread may call.
 */
final class Rehearsals {
  private static final Logger LOG = LoggerFactory.getLogger(Rehearsals.class);
  private static final int WAITING_MAX = 3;
  private static final int KEPT_MAX = 20;

  private final ThreadPoolExecutor maker = Background.oneAtATime("rehearsal", WAITING_MAX);
  private final Map<String, RehearsalReport> kept = new NewestKept<>(KEPT_MAX);

  Optional<RehearsalReport> find(String id) {
    synchronized (kept) {
      return Optional.ofNullable(kept.get(id));
    }
  }

  /**
   * Begins it, or finds it where it was begun before; empty if too many wait.
   *
   * @param more made after it, on the same thread: words to add to its own
   */
  Optional<RehearsalReport> begin(String id, Supplier<Rehearsal> what, Supplier<String> more) {
    synchronized (kept) {
      RehearsalReport known = kept.get(id);
      if (known != null && !known.state().equals("failed")) {
        return Optional.of(known);
      }
      RehearsalReport waiting = new RehearsalReport(id, "waiting", false, "", "");
      try {
        maker.execute(() -> make(id, what, more));
      } catch (RejectedExecutionException e) {
        return Optional.empty();
      }
      kept.put(id, waiting);
      return Optional.of(waiting);
    }
  }

  private void make(String id, Supplier<Rehearsal> what, Supplier<String> more) {
    put(new RehearsalReport(id, "running", false, "", ""));
    try {
      RehearsalResult result = what.get().run();
      String words = result.words();
      put(new RehearsalReport(id, "running", result.isComplete(), summary(result), words));
      words += more.get();
      put(new RehearsalReport(id, "done", result.isComplete(), summary(result), words));
    } catch (RuntimeException e) {
      LOG.error("A rehearsal failed.", e);
      put(new RehearsalReport(id, "failed", false, "The rehearsal itself failed.", ""));
    }
  }

  private void put(RehearsalReport report) {
    synchronized (kept) {
      kept.put(report.id(), report);
    }
  }

  static String summary(RehearsalResult result) {
    return result.endState()
        + " after "
        + Words.duration(Math.rint(result.simulatedSeconds()))
        + " on a simulated bench, sample at most "
        + Words.temperature(result.peakTemperatureK())
        + ", pressure at most "
        + Words.pressure(result.peakPressurePa())
        + ", "
        + result.trips()
        + " trips"
        + (result.lastAlarm().isEmpty() ? "" : ", last alarm: " + result.lastAlarm());
  }
}
