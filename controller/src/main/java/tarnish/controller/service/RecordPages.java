package tarnish.controller.service;

import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.record.BatchRecord;
import tarnish.controller.record.RecordPage;

/**
 * Printable records of batches that have ended. They are made one at a time by a thread with the
 * least priority, and a few are kept, so that nobody can keep the processor busy by asking again
 * and again. Who has to wait for long gets a page that asks again by itself.
 */
final class RecordPages {
  private static final int KEPT_MAX = 4;
  private static final long PATIENCE_MILLIS = 4_000;
  private static final String WAITING =
      "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\">"
          + "<meta http-equiv=\"refresh\" content=\"2\"><title>Record</title>"
          + "<p>The record is being made; this page shows it as soon as it is there.</p></html>\n";

  /** As for every answer, but the record's own style sheet, and nothing else, may stand inline. */
  private static final String POLICY =
      Guard.POLICY
          + "; style-src 'sha256-"
          + Base64.getEncoder().encodeToString(sha256(RecordPage.STYLE))
          + "'";

  private final Bench bench;
  private final ThreadPoolExecutor maker =
      new ThreadPoolExecutor(
          0, 1, 10, TimeUnit.SECONDS, new ArrayBlockingQueue<>(KEPT_MAX), RecordPages::thread);
  private final Map<Integer, CompletableFuture<byte[]>> kept =
      new LinkedHashMap<>(8, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Integer, CompletableFuture<byte[]>> eldest) {
          return size() > KEPT_MAX;
        }
      };

  RecordPages(Bench bench) {
    this.bench = bench;
  }

  private static Thread thread(Runnable work) {
    Thread thread = new Thread(work, "record maker");
    thread.setDaemon(true);
    thread.setPriority(Thread.MIN_PRIORITY);
    return thread;
  }

  void answer(Context context, BatchLine line) {
    if (line.endState().isEmpty()) {
      throw new Refused(
          409, "Batch " + line.batch() + " has not ended: its record is made when it has.");
    }
    byte[] page = page(line.batch());
    context.header("Content-Security-Policy", POLICY);
    context.contentType("text/html; charset=utf-8");
    if (page == null) {
      context.status(202).result(WAITING);
    } else {
      context.result(page);
    }
  }

  /** The page, or null where it needs longer. */
  private byte[] page(int batch) {
    CompletableFuture<byte[]> record = record(batch);
    try {
      return record.get(PATIENCE_MILLIS, TimeUnit.MILLISECONDS);
    } catch (TimeoutException stillBeingMade) {
      return null;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    } catch (ExecutionException e) {
      synchronized (kept) {
        kept.remove(batch);
      }
      if (e.getCause() instanceof IllegalArgumentException) {
        throw new Refused(409, e.getCause().getMessage());
      }
      throw new IllegalStateException("a record could not be made", e.getCause());
    }
  }

  private CompletableFuture<byte[]> record(int batch) {
    synchronized (kept) {
      CompletableFuture<byte[]> known = kept.get(batch);
      if (known == null) {
        try {
          known = CompletableFuture.supplyAsync(() -> make(batch), maker);
        } catch (RejectedExecutionException e) {
          throw new Refused(429, "Several records are being made; try again in a minute.");
        }
        kept.put(batch, known);
      }
      return known;
    }
  }

  private byte[] make(int batch) {
    return BatchRecord.of(bench.journal(), batch, bench.status().version())
        .html()
        .getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] sha256(String text) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
