package tarnish.controller.app;

import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import tarnish.controller.access.Background;
import tarnish.controller.access.NewestKept;
import tarnish.controller.journal.Journal;
import tarnish.controller.service.Status;

/**
 * Setpoints of past batches. Control must be run again for them, which takes seconds for two weeks,
 * so that is done in the background: who draws a batch gets them when he draws it next.
 */
final class PastSetpoints {
  private static final int KEPT_MAX = 8;
  private static final int WAITING_MAX = 4;

  private final Journal journal;
  private final ThreadPoolExecutor worker = Background.oneAtATime("past setpoints", WAITING_MAX);
  private final Map<Integer, CompletableFuture<List<Status.CourseLine>>> kept =
      new NewestKept<>(KEPT_MAX);

  PastSetpoints(Journal journal) {
    this.journal = journal;
  }

  /** Corners of a batch, or none while they are not known yet or if it cannot be run again. */
  List<Status.CourseLine> of(int batch) {
    synchronized (kept) {
      CompletableFuture<List<Status.CourseLine>> known = kept.get(batch);
      if (known == null) {
        try {
          known =
              CompletableFuture.supplyAsync(
                  () -> Replay.setpoints(journal, batch).corners(), worker);
        } catch (RejectedExecutionException e) {
          return List.of();
        }
        kept.put(batch, known);
      }
      return known.isCompletedExceptionally() ? List.of() : known.getNow(List.of());
    }
  }
}
