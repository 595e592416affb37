package tarnish.controller.record;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** The same record as PDF, with its fonts in it. The same story gives the same bytes. */
final class RecordPdf {
  private RecordPdf() {}

  static byte[] of(BatchStory story, InForce inForce, Map<String, String> sums, String version) {
    String title = RecordContent.title(story);
    try (Sheets sheets = new Sheets(title, story.line().batch())) {
      PdfPaper paper = new PdfPaper(sheets);
      new RecordContent(story, inForce, sums, version, paper).write();
      int lacking = sheets.plain.lacking() + sheets.bold.lacking() + sheets.mono.lacking();
      if (lacking > 0) {
        paper.paragraph(
            lacking
                + " characters that the fonts of this file lack are shown as \uFFFD; the page and"
                + " the exports have them.");
      }
      return sheets.bytes(title + ". Tarnish " + version);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
