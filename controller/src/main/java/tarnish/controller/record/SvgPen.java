package tarnish.controller.record;

import java.util.Locale;

/** Draws as SVG elements, without a style sheet or script of their own. */
final class SvgPen implements Pen {
  private final StringBuilder svg = new StringBuilder();

  SvgPen(String says, double width, double height) {
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" role=\"img\""
            + " aria-label=\"%s\" font-family=\"sans-serif\" font-size=\"11\" fill=\"#222\">\n",
        width, height, Html.text(says));
  }

  @Override
  public void line(double[] x, double[] y, String colour, double width, double... dashes) {
    StringBuilder path = new StringBuilder();
    boolean down = false;
    for (int i = 0; i < x.length; i++) {
      if (!Double.isNaN(y[i])) {
        point(path, down ? 'L' : 'M', x[i], y[i]);
      }
      down = !Double.isNaN(y[i]);
    }
    String dash =
        dashes.length == 0
            ? ""
            : String.format(Locale.ROOT, " stroke-dasharray=\"%.0f %.0f\"", dashes[0], dashes[1]);
    add(
        "<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%.1f\"%s"
            + " stroke-linejoin=\"round\"/>\n",
        path, colour, width, dash);
  }

  @Override
  public void area(double[] x, double[] y, String colour, double edge) {
    StringBuilder path = new StringBuilder();
    for (int i = 0; i < x.length; i++) {
      point(path, i == 0 ? 'M' : 'L', x[i], y[i]);
    }
    add(
        "<path d=\"%sZ\" fill=\"%s\" stroke=\"%s\" stroke-width=\"%.1f\""
            + " stroke-linejoin=\"round\"/>\n",
        path, colour, colour, edge);
  }

  @Override
  public void dot(double x, double y, double radius, String colour) {
    add("<circle cx=\"%.1f\" cy=\"%.1f\" r=\"%.1f\" fill=\"%s\"/>\n", x, y, radius, colour);
  }

  @Override
  public void ticks(double[] x, double foot, double height, String colour) {
    StringBuilder path = new StringBuilder();
    for (double each : x) {
      path.append(String.format(Locale.ROOT, "M%.1f %.1fv-%.0f", each, foot, height));
    }
    add("<path d=\"%s\" stroke=\"%s\" stroke-width=\"0.8\"/>\n", path, colour);
  }

  @Override
  public void words(double x, double y, Anchor anchor, String words) {
    add(
        "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>\n",
        x, y, anchor.word(), Html.text(words));
  }

  @Override
  public void upright(double x, double y, String words) {
    add(
        "<text transform=\"translate(%.1f %.1f) rotate(-90)\" text-anchor=\"middle\">%s</text>\n",
        x, y, Html.text(words));
  }

  private static void point(StringBuilder path, char how, double x, double y) {
    path.append(String.format(Locale.ROOT, "%c%.1f %.1f", how, x, y));
  }

  private void add(String form, Object... values) {
    svg.append(String.format(Locale.ROOT, form, values));
  }

  @Override
  public String toString() {
    return svg + "</svg>\n";
  }
}
