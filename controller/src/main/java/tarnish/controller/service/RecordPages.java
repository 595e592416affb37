package tarnish.controller.service;

import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.record.BatchRecord;
import tarnish.controller.record.RecordPage;

/**
 * Printable records of batches that have ended. One is made at a time, by a page thread, and a few
 * are kept, so that nobody can keep the processor busy by asking again and again.
 */
final class RecordPages {
  private static final int KEPT_MAX = 4;

  /** As for every answer, but the record's own style sheet, and nothing else, may stand inline. */
  private static final String POLICY =
      Guard.HEADERS.get("Content-Security-Policy")
          + "; style-src 'sha256-"
          + Base64.getEncoder().encodeToString(sha256(RecordPage.STYLE))
          + "'";

  private final Bench bench;
  private final Map<Integer, byte[]> kept =
      new LinkedHashMap<>(8, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Integer, byte[]> eldest) {
          return size() > KEPT_MAX;
        }
      };

  RecordPages(Bench bench) {
    this.bench = bench;
  }

  void answer(Context context, BatchLine line) {
    if (line.endState().isEmpty()) {
      throw new Refused(
          409, "Batch " + line.batch() + " has not ended: its record is made when it has.");
    }
    byte[] page = page(line.batch());
    context.header("Content-Security-Policy", POLICY);
    context.contentType("text/html; charset=utf-8").result(page);
  }

  private synchronized byte[] page(int batch) {
    byte[] known = kept.get(batch);
    if (known == null) {
      try {
        known =
            BatchRecord.of(bench.journal(), batch, bench.status().version())
                .html()
                .getBytes(StandardCharsets.UTF_8);
      } catch (IllegalArgumentException e) {
        throw new Refused(409, e.getMessage());
      }
      kept.put(batch, known);
    }
    return known;
  }

  private static byte[] sha256(String text) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
