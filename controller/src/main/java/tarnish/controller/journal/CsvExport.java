package tarnish.controller.journal;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.EventLine;

/**
 * A batch as comma-separated values (RFC 4180, but with plain line feeds), the same bytes for the
 * same record on any machine. The writer should encode as UTF-8; it is flushed, not closed.
 */
public final class CsvExport {
  private CsvExport() {}

  /**
   * Every tick: time, each fitted channel in the unit of its heading, outputs, and remarks that say
   * in words why a reading is missing.
   */
  public static void samples(Journal journal, int batch, Writer to) throws IOException {
    heading(journal, batch, to);
    CsvSampleRows rows = new CsvSampleRows(to);
    try {
      journal.playBack(batch, rows::tick);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    rows.end();
    to.flush();
  }

  /** Every event and request in words. */
  public static void events(Journal journal, int batch, Writer to) throws IOException {
    heading(journal, batch, to);
    to.write("time since start [s],wall-clock time,kind,what happened\n");
    StringBuilder line = new StringBuilder();
    for (EventLine each : journal.events(batch, 0, Integer.MAX_VALUE)) {
      line.setLength(0);
      appendFixed(line, each.millis(), 3);
      line.append(',').append(quoted(each.wallTime()));
      line.append(',').append(quoted(each.kind()));
      line.append(',').append(quoted(each.sentence())).append('\n');
      to.append(line);
    }
    to.flush();
  }

  private static void heading(Journal journal, int batch, Writer to) throws IOException {
    BatchHead head = journal.head(batch);
    to.write("# batch " + batch + ": " + oneLine(head.title()) + "\n");
    to.write("# started " + oneLine(head.startedAt()) + "\n");
    to.write("# note " + oneLine(head.note()) + "\n");
  }

  private static String oneLine(String text) {
    return text.replaceAll("\\R", " ");
  }

  /** A cell as in RFC 4180, section 2, rules 5 to 7. */
  static String quoted(String text) {
    boolean plain = true;
    for (int i = 0; i < text.length() && plain; i++) {
      plain = ",\"\r\n".indexOf(text.charAt(i)) < 0;
    }
    return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
  }

  /** A number given in units of its last decimal: 12345 with 3 decimals is 12.345. */
  static void appendFixed(StringBuilder to, long scaled, int decimals) {
    if (decimals == 0) {
      to.append(scaled);
      return;
    }
    String digits = Long.toString(Math.abs(scaled));
    if (scaled < 0) {
      to.append('-');
    }
    int whole = digits.length() - decimals;
    if (whole <= 0) {
      to.append("0.");
      to.append("0".repeat(-whole)).append(digits);
    } else {
      to.append(digits, 0, whole).append('.').append(digits, whole, digits.length());
    }
  }
}
