package tarnish.controller.record;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * One picture of the record. Lines differ by dash and width as well as by shade, so that a grey
 * print says the same.
 */
final class Chart {
  static final double WIDTH = 700;

  private static final double LEFT = 52;
  private static final double RIGHT = 8;
  private static final double TOP = 10;
  private static final double STRIP_ROW = 7;
  private static final int STRIP_ROWS = 3;
  private static final double BOTTOM = 34;
  private static final String GRID = "#dddddd";
  private static final String FRAME = "#555555";

  private final String says;
  private final double height;
  private final double top;
  private final Axis x;
  private final Axis y;
  private final List<Consumer<Pen>> strokes = new ArrayList<>();

  Chart(String says, String unit, double height, Axis x, Axis y) {
    this(says, unit, height, TOP, x, y);
  }

  /** With room above the frame for stretches of time. */
  static Chart withStrip(String says, String unit, double height, Axis x, Axis y) {
    return new Chart(says, unit, height, TOP + STRIP_ROWS * STRIP_ROW, x, y);
  }

  private Chart(String says, String unit, double height, double top, Axis x, Axis y) {
    this.says = says;
    this.height = height;
    this.top = top;
    this.x = x;
    this.y = y;
    grid();
    strokes.add(pen -> labels(pen, unit));
  }

  /** What the picture shows, for who cannot see it. */
  String says() {
    return says;
  }

  double height() {
    return height;
  }

  void draw(Pen pen) {
    strokes.forEach(stroke -> stroke.accept(pen));
  }

  private void grid() {
    for (double tick : y.ticks()) {
      straight(LEFT, y(tick), WIDTH - RIGHT, y(tick), GRID);
    }
    for (double tick : x.ticks()) {
      straight(x(tick), top, x(tick), height - BOTTOM, GRID);
    }
    straight(LEFT, top, WIDTH - RIGHT, top, FRAME);
    straight(LEFT, height - BOTTOM, WIDTH - RIGHT, height - BOTTOM, FRAME);
    straight(LEFT, top, LEFT, height - BOTTOM, FRAME);
    straight(WIDTH - RIGHT, top, WIDTH - RIGHT, height - BOTTOM, FRAME);
  }

  private void labels(Pen pen, String unit) {
    for (double tick : y.ticks()) {
      pen.words(LEFT - 6, y(tick) + 4, Pen.Anchor.END, y.label(tick));
    }
    for (double tick : x.ticks()) {
      pen.words(x(tick), height - BOTTOM + 14, Pen.Anchor.MIDDLE, x.label(tick));
    }
    pen.words(WIDTH - RIGHT, height - 4, Pen.Anchor.END, "hours since the start");
    pen.upright(11, (top + height - BOTTOM) / 2, unit);
  }

  private void straight(double fromX, double fromY, double toX, double toY, String colour) {
    double[] xs = {fromX, toX};
    double[] ys = {fromY, toY};
    strokes.add(pen -> pen.line(xs, ys, colour, 1));
  }

  /** A stretch of time as a bar above the frame, the first row on top. */
  Chart stretch(double fromHours, double toHours, int row, String colour) {
    double left = x(fromHours);
    double right = StrictMath.max(left + 1, x(toHours));
    double edge = top - (STRIP_ROWS - row) * STRIP_ROW;
    double[] xs = {left, right, right, left};
    double[] ys = {edge, edge, edge + 4, edge + 4};
    strokes.add(pen -> pen.area(xs, ys, colour, 0.2));
    return this;
  }

  /** A stretch of time as a shade over the whole height, behind what is drawn after it. */
  Chart shade(double fromHours, double toHours, String colour) {
    double left = x(fromHours);
    double right = StrictMath.max(left + 1, x(toHours));
    double[] xs = {left, right, right, left};
    double[] ys = {top, top, height - BOTTOM, height - BOTTOM};
    strokes.add(pen -> pen.area(xs, ys, colour, 0.2));
    return this;
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
    int n = to - from;
    double[] xs = new double[2 * n];
    double[] ys = new double[2 * n];
    for (int i = 0; i < n; i++) {
      xs[i] = x(hours[from + i]);
      ys[i] = y(greatest[from + i]);
      xs[2 * n - 1 - i] = xs[i];
      ys[2 * n - 1 - i] = y(least[from + i]);
    }
    strokes.add(pen -> pen.area(xs, ys, colour, 0.9));
  }

  /** A line through the values; NaN is a gap. */
  Chart line(double[] hours, double[] values, String colour, double width, double... dashes) {
    double[] xs = new double[hours.length];
    double[] ys = new double[hours.length];
    for (int i = 0; i < hours.length; i++) {
      xs[i] = x(hours[i]);
      ys[i] = y(values[i]);
    }
    strokes.add(pen -> pen.line(xs, ys, colour, width, dashes));
    return this;
  }

  /** Short strokes on the lower edge. */
  Chart marks(double[] hours, String colour) {
    double[] xs = new double[hours.length];
    for (int i = 0; i < hours.length; i++) {
      xs[i] = x(hours[i]);
    }
    strokes.add(pen -> pen.ticks(xs, height - BOTTOM, 9, colour));
    return this;
  }

  /** A point with its standard uncertainty, or a plain one where that is zero. */
  Chart point(double hours, double value, double uncertainty, String colour) {
    straight(x(hours), y(value + uncertainty), x(hours), y(value - uncertainty), colour);
    strokes.add(pen -> pen.dot(x(hours), y(value), 3.2, colour));
    return this;
  }

  private double x(double hours) {
    return LEFT + (hours - x.least()) / (x.greatest() - x.least()) * (WIDTH - LEFT - RIGHT);
  }

  private double y(double value) {
    double share = (value - y.least()) / (y.greatest() - y.least());
    return height - BOTTOM - share * (height - BOTTOM - top);
  }
}
