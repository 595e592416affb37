package tarnish.controller.record;

import java.awt.Color;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.PDPageContentStream.AppendMode;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.destination.PDPageXYZDestination;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDDocumentOutline;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;

/**
 * A stack of A4 sheets with a place that moves down them. Lengths are in points, 1/72 inch; the
 * same calls give the same bytes.
 */
final class Sheets implements AutoCloseable {
  static final double WIDTH = 505;
  static final double LEFT = 45;
  static final Color INK = new Color(0x1b, 0x1e, 0x20);
  static final Color QUIET = new Color(0x4d, 0x53, 0x58);

  private static final double TOP = 797;
  private static final double FOOT = 54;
  private static final double FOOTER = 30;

  private final PDDocument document = new PDDocument();
  private final PDDocumentOutline outline = new PDDocumentOutline();
  final Face plain;
  final Face bold;
  final Face mono;
  private PDPage page;
  private PDPageContentStream stream;
  private double y = FOOT;

  Sheets(String title, long number) throws IOException {
    document.setDocumentId(number);
    document.getDocumentInformation().setTitle(title);
    document.getDocumentCatalog().setLanguage("en");
    document.getDocumentCatalog().setDocumentOutline(outline);
    plain = Face.of("DejaVuSans", document);
    bold = Face.of("DejaVuSans-Bold", document);
    mono = Face.of("DejaVuSansMono", document);
  }

  /** What may throw while drawing. */
  interface Stroke {
    void onto(PDPageContentStream stream) throws IOException;
  }

  void draw(Stroke stroke) {
    try {
      if (stream == null) {
        newPage();
      }
      stroke.onto(stream);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void newPage() throws IOException {
    if (stream != null) {
      stream.close();
    }
    page = new PDPage(PDRectangle.A4);
    document.addPage(page);
    stream = new PDPageContentStream(document, page, AppendMode.OVERWRITE, true);
    y = TOP;
  }

  /** Goes on to a new sheet unless so much is left on this one; true if it did. */
  boolean need(double height) {
    if (stream != null && y - height >= FOOT) {
      return false;
    }
    try {
      newPage();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return true;
  }

  /** The most that a sheet holds. */
  static double heightMax() {
    return TOP - FOOT;
  }

  double y() {
    return y;
  }

  void down(double by) {
    y -= by;
  }

  /** Words with their base line at a height. */
  void words(String known, Face face, double size, double x, double base, Color colour) {
    draw(
        to -> {
          to.beginText();
          to.setFont(face.embedded(), (float) size);
          to.setNonStrokingColor(colour);
          to.newLineAtOffset((float) x, (float) base);
          to.showText(known);
          to.endText();
        });
  }

  void rule(double fromX, double toX, double height, double width, Color colour) {
    draw(
        to -> {
          to.setStrokingColor(colour);
          to.setLineWidth((float) width);
          to.setLineDashPattern(new float[0], 0);
          to.moveTo((float) fromX, (float) height);
          to.lineTo((float) toX, (float) height);
          to.stroke();
        });
  }

  /** An entry of the list of contents that viewers show, at the present place. */
  void entry(String title) {
    PDPageXYZDestination destination = new PDPageXYZDestination();
    destination.setPage(page);
    destination.setTop((int) y + 20);
    PDOutlineItem item = new PDOutlineItem();
    item.setTitle(title);
    item.setDestination(destination);
    outline.addLast(item);
  }

  /** Writes the foot of every sheet and gives the file. */
  byte[] bytes(String foot) throws IOException {
    stream.close();
    int count = document.getNumberOfPages();
    String known = plain.known(foot);
    while (plain.width(known, 7) > WIDTH - 60) {
      known = known.substring(0, known.length() - 2) + "…";
    }
    for (int i = 0; i < count; i++) {
      stream =
          new PDPageContentStream(document, document.getPage(i), AppendMode.APPEND, true, true);
      String number = (i + 1) + " / " + count;
      double right = LEFT + WIDTH - plain.width(number, 7);
      words(known, plain, 7, LEFT, FOOTER, QUIET);
      words(number, plain, 7, right, FOOTER, QUIET);
      stream.close();
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(256 * 1024);
    document.save(bytes);
    return bytes.toByteArray();
  }

  @Override
  public void close() throws IOException {
    document.close();
    plain.close();
    bold.close();
    mono.close();
  }
}
