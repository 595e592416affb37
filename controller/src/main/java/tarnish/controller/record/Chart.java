package tarnish.controller.record;

import java.util.Locale;

/**
 * One picture of the record as inline SVG, without a style sheet or script of its own. Lines differ
 * by dash and width as well as by shade, so that a grey print says the same.
 */
final class Chart {
  private static final double WIDTH = 700;
  private static final double LEFT = 52;
  private static final double RIGHT = 8;
  private static final double TOP = 10;
  private static final double BOTTOM = 34;

  private final double height;
  private final Axis x;
  private final Axis y;
  private final StringBuilder svg = new StringBuilder();

  Chart(String says, String unit, double height, Axis x, Axis y) {
    this.height = height;
    this.x = x;
    this.y = y;
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" role=\"img\""
            + " aria-label=\"%s\" font-family=\"sans-serif\" font-size=\"11\" fill=\"#222\">\n",
        WIDTH, height, Html.text(says));
    grid(unit);
  }

  private void grid(String unit) {
    for (double tick : y.ticks()) {
      add("<path d=\"M%.1f %.1fH%.1f\" stroke=\"#ddd\"/>", LEFT, y(tick), WIDTH - RIGHT);
      add(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">%s</text>\n",
          LEFT - 6, y(tick) + 4, y.label(tick));
    }
    for (double tick : x.ticks()) {
      add("<path d=\"M%.1f %.1fV%.1f\" stroke=\"#ddd\"/>", x(tick), TOP, height - BOTTOM);
      add(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\">%s</text>\n",
          x(tick), height - BOTTOM + 14, x.label(tick));
    }
    add(
        "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">hours since the start</text>\n",
        WIDTH - RIGHT, height - 4);
    add(
        "<text transform=\"translate(11 %.1f) rotate(-90)\" text-anchor=\"middle\">%s</text>\n",
        (TOP + height - BOTTOM) / 2, Html.text(unit));
    add(
        "<path d=\"M%.1f %.1fH%.1fV%.1fH%.1fZ\" fill=\"none\" stroke=\"#555\"/>\n",
        LEFT, TOP, WIDTH - RIGHT, height - BOTTOM, LEFT);
  }

  /** The area between least and greatest; NaN is a gap. */
  Chart band(double[] hours, double[] least, double[] greatest, String colour) {
    int from = 0;
    while (from < hours.length) {
      int to = from;
      while (to < hours.length && !Double.isNaN(least[to])) {
        to++;
      }
      if (to > from) {
        area(hours, least, greatest, from, to, colour);
      }
      from = to + 1;
    }
    return this;
  }

  private void area(
      double[] hours, double[] least, double[] greatest, int from, int to, String colour) {
    StringBuilder path = new StringBuilder();
    for (int i = from; i < to; i++) {
      point(path, i == from ? 'M' : 'L', hours[i], greatest[i]);
    }
    for (int i = to - 1; i >= from; i--) {
      point(path, 'L', hours[i], least[i]);
    }
    add(
        "<path d=\"%sZ\" fill=\"%s\" stroke=\"%s\" stroke-width=\"0.9\""
            + " stroke-linejoin=\"round\"/>\n",
        path, colour, colour);
  }

  /** A line through the values; NaN is a gap. */
  Chart line(double[] hours, double[] values, String colour, double width, String dashes) {
    StringBuilder path = new StringBuilder();
    boolean down = false;
    for (int i = 0; i < hours.length; i++) {
      if (!Double.isNaN(values[i])) {
        point(path, down ? 'L' : 'M', hours[i], values[i]);
      }
      down = !Double.isNaN(values[i]);
    }
    add(
        "<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%.1f\""
            + " stroke-dasharray=\"%s\" stroke-linejoin=\"round\"/>\n",
        path, colour, width, dashes);
    return this;
  }

  /** Short strokes on the lower edge. */
  Chart marks(double[] hours, String colour) {
    StringBuilder path = new StringBuilder();
    for (double each : hours) {
      path.append(String.format(Locale.ROOT, "M%.1f %.1fv-9", x(each), height - BOTTOM));
    }
    add("<path d=\"%s\" stroke=\"%s\" stroke-width=\"0.8\"/>\n", path, colour);
    return this;
  }

  /** A point with its standard uncertainty, or a plain one where that is zero. */
  Chart point(double hours, double value, double uncertainty, String colour) {
    double high = y(value + uncertainty);
    double low = y(value - uncertainty);
    add("<path d=\"M%.1f %.1fV%.1f\" stroke=\"%s\"/>", x(hours), high, low, colour);
    add("<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3.2\" fill=\"%s\"/>\n", x(hours), y(value), colour);
    return this;
  }

  @Override
  public String toString() {
    return svg + "</svg>\n";
  }

  private void point(StringBuilder path, char how, double hours, double value) {
    path.append(String.format(Locale.ROOT, "%c%.1f %.1f", how, x(hours), y(value)));
  }

  private double x(double hours) {
    return LEFT + (hours - x.least()) / (x.greatest() - x.least()) * (WIDTH - LEFT - RIGHT);
  }

  private double y(double value) {
    double share = (value - y.least()) / (y.greatest() - y.least());
    return height - BOTTOM - share * (height - BOTTOM - TOP);
  }

  private void add(String form, Object... values) {
    svg.append(String.format(Locale.ROOT, form, values));
  }
}
