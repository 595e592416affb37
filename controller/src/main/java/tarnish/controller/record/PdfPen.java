package tarnish.controller.record;

import java.awt.Color;
import java.io.IOException;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.util.Matrix;

/** Draws a picture on a sheet, scaled to the width of the text. */
final class PdfPen implements Pen {
  private static final double SIZE = 11;

  private final Sheets sheets;
  private final double scale = Sheets.WIDTH / Chart.WIDTH;
  private final double top;

  /** A pen for a picture whose upper edge is at the present place of the sheets. */
  PdfPen(Sheets sheets) {
    this.sheets = sheets;
    top = sheets.y();
  }

  private float x(double x) {
    return (float) (Sheets.LEFT + x * scale);
  }

  private float y(double y) {
    return (float) (top - y * scale);
  }

  private static Color colour(String name) {
    return Color.decode(name);
  }

  @Override
  public void line(double[] x, double[] y, String colour, double width, double... dashes) {
    float[] pattern = new float[dashes.length];
    for (int i = 0; i < dashes.length; i++) {
      pattern[i] = (float) (dashes[i] * scale);
    }
    sheets.draw(
        to -> {
          to.setStrokingColor(colour(colour));
          to.setLineWidth((float) (width * scale));
          to.setLineDashPattern(pattern, 0);
          to.setLineJoinStyle(1);
          trace(to, x, y);
          to.stroke();
        });
  }

  private void trace(PDPageContentStream to, double[] x, double[] y) throws IOException {
    boolean down = false;
    for (int i = 0; i < x.length; i++) {
      if (!Double.isNaN(y[i]) && down) {
        to.lineTo(x(x[i]), y(y[i]));
      } else if (!Double.isNaN(y[i])) {
        to.moveTo(x(x[i]), y(y[i]));
      }
      down = !Double.isNaN(y[i]);
    }
  }

  @Override
  public void area(double[] x, double[] y, String colour, double edge) {
    sheets.draw(
        to -> {
          to.setNonStrokingColor(colour(colour));
          to.setStrokingColor(colour(colour));
          to.setLineWidth((float) (edge * scale));
          to.setLineDashPattern(new float[0], 0);
          to.setLineJoinStyle(1);
          trace(to, x, y);
          to.closeAndFillAndStroke();
        });
  }

  @Override
  public void dot(double x, double y, double radius, String colour) {
    // A circle by four cubic curves; 0.5523 makes them touch it at the octants (common practice).
    float r = (float) (radius * scale);
    float c = 0.5523f * r;
    float cx = x(x);
    float cy = y(y);
    sheets.draw(
        to -> {
          to.setNonStrokingColor(colour(colour));
          to.moveTo(cx + r, cy);
          to.curveTo(cx + r, cy + c, cx + c, cy + r, cx, cy + r);
          to.curveTo(cx - c, cy + r, cx - r, cy + c, cx - r, cy);
          to.curveTo(cx - r, cy - c, cx - c, cy - r, cx, cy - r);
          to.curveTo(cx + c, cy - r, cx + r, cy - c, cx + r, cy);
          to.fill();
        });
  }

  @Override
  public void ticks(double[] x, double foot, double height, String colour) {
    sheets.draw(
        to -> {
          to.setStrokingColor(colour(colour));
          to.setLineWidth((float) (0.8 * scale));
          to.setLineDashPattern(new float[0], 0);
          for (double each : x) {
            to.moveTo(x(each), y(foot));
            to.lineTo(x(each), y(foot - height));
          }
          to.stroke();
        });
  }

  @Override
  public void words(double x, double y, Anchor anchor, String words) {
    String known = sheets.plain.known(words);
    double width = sheets.plain.width(known, SIZE * scale);
    double back =
        switch (anchor) {
          case START -> 0;
          case MIDDLE -> width / 2;
          case END -> width;
        };
    sheets.words(known, sheets.plain, SIZE * scale, x(x) - back, y(y), Sheets.INK);
  }

  @Override
  public void upright(double x, double y, String words) {
    String known = sheets.plain.known(words);
    double width = sheets.plain.width(known, SIZE * scale);
    sheets.draw(
        to -> {
          to.beginText();
          to.setFont(sheets.plain.embedded(), (float) (SIZE * scale));
          to.setNonStrokingColor(Sheets.INK);
          to.setTextMatrix(
              Matrix.getRotateInstance(StrictMath.PI / 2, x(x), y(y) - (float) (width / 2)));
          to.showText(known);
          to.endText();
        });
  }
}
