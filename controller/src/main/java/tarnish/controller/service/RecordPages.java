package tarnish.controller.service;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.concurrent.Executor;
import java.util.concurrent.Semaphore;
import tarnish.controller.journal.CsvExport;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.record.BatchRecord;
import tarnish.controller.record.RecordPage;

/**
 * Records of batches that have ended, as page, PDF and JSON, and the exports beside them. Who has
 * to wait for long gets a page that asks again by itself.
 */
final class RecordPages {
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
  private final Making<BatchRecord.Made> records;
  private final Semaphore exporting = new Semaphore(1);

  RecordPages(Bench bench, Executor maker) {
    this.bench = bench;
    records = new Making<>(maker, PATIENCE_MILLIS);
  }

  void html(Context context, BatchLine line) {
    context.header("Content-Security-Policy", POLICY);
    send(context, made(line), "text/html; charset=utf-8");
  }

  void pdf(Context context, BatchLine line) {
    BatchRecord.Made made = made(line);
    send(context, made, "application/pdf");
    name(context, line, made == null ? "html" : "pdf");
  }

  void json(Context context, BatchLine line) {
    BatchRecord.Made made = made(line);
    send(context, made, "application/json");
    name(context, line, made == null ? "html" : "json");
  }

  private static void send(Context context, BatchRecord.Made made, String type) {
    if (made == null) {
      context.status(202).contentType("text/html; charset=utf-8").result(WAITING);
      return;
    }
    byte[] bytes =
        switch (type) {
          case "application/pdf" -> made.pdf();
          case "application/json" -> made.json();
          default -> made.html();
        };
    context.contentType(type).result(bytes);
  }

  /** Under which name a browser keeps it; what is not a page is not shown within one. */
  private static void name(Context context, BatchLine line, String ending) {
    if (!ending.equals("html")) {
      String name = "batch-" + line.batch() + (ending.startsWith("-") ? "" : ".") + ending;
      context.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
    }
  }

  private BatchRecord.Made made(BatchLine line) {
    requireEnd(line);
    return records.get(line.batch(), () -> make(line.batch()));
  }

  private static void requireEnd(BatchLine line) {
    if (line.endState().isEmpty()) {
      throw new Refused(
          409, "Batch " + line.batch() + " has not ended: its record is made when it has.");
    }
  }

  private BatchRecord.Made make(int batch) {
    String startedAt = bench.journal().head(batch).startedAt();
    return BatchRecord.of(
            bench.journal(), batch, bench.status().version(), bench.inForce(startedAt))
        .make();
  }

  /** One export at a time: it reads the whole batch. */
  void csv(Context context, BatchLine line, boolean samples) {
    if (!exporting.tryAcquire()) {
      throw new Refused(429, "Another export is being written; try again when it is done.");
    }
    try {
      context.contentType("text/csv; charset=utf-8");
      name(context, line, samples ? "-samples.csv" : "-events.csv");
      OutputStreamWriter to =
          new OutputStreamWriter(context.outputStream(), StandardCharsets.UTF_8);
      if (samples) {
        CsvExport.samples(bench.journal(), line.batch(), to);
      } else {
        CsvExport.events(bench.journal(), line.batch(), to);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      exporting.release();
    }
  }

  private static byte[] sha256(String text) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
