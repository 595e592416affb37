package tarnish.controller.service;

import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executor;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import tarnish.controller.access.Background;
import tarnish.controller.access.NewestKept;

/**
 * Things of batches that take seconds to make. They are made one at a time by a thread with the
 * least priority, and a few are kept, so that nobody can keep the processor busy by asking again
 * and again. Safe from any thread.
 */
final class Making<T> {
  private static final int KEPT_MAX = 4;
  private static final int WAITING_MAX = 8;

  private final Executor maker;
  private final long patienceMillis;
  private final Map<Object, CompletableFuture<T>> kept = new NewestKept<>(KEPT_MAX);

  /**
   * @param patienceMillis how long an asker waits before being told to come again
   */
  Making(Executor maker, long patienceMillis) {
    this.maker = maker;
    this.patienceMillis = patienceMillis;
  }

  /** The one thread, to be shared by all that makes such things. */
  static Executor maker() {
    return Background.oneAtATime("record maker", WAITING_MAX);
  }

  /**
   * What was made for a key, or null where it needs longer.
   *
   * @throws Refused if it cannot be made from what is recorded, or too many wait
   */
  T get(Object key, Supplier<T> how) {
    CompletableFuture<T> made = begin(key, how);
    try {
      return made.get(patienceMillis, TimeUnit.MILLISECONDS);
    } catch (TimeoutException stillBeingMade) {
      return null;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    } catch (ExecutionException e) {
      synchronized (kept) {
        kept.remove(key);
      }
      if (e.getCause() instanceof IllegalArgumentException) {
        throw new Refused(409, e.getCause().getMessage());
      }
      throw new IllegalStateException("something of a batch could not be made", e.getCause());
    }
  }

  private CompletableFuture<T> begin(Object key, Supplier<T> how) {
    synchronized (kept) {
      CompletableFuture<T> known = kept.get(key);
      if (known == null) {
        try {
          known = CompletableFuture.supplyAsync(how, maker);
        } catch (RejectedExecutionException e) {
          throw new Refused(429, "Several records are being made; try again in a minute.");
        }
        kept.put(key, known);
      }
      return known;
    }
  }
}
