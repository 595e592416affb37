package tarnish.controller.app;

import java.util.Arrays;
import java.util.Comparator;
import java.util.function.ToDoubleFunction;

/**
 * Search for a least value without derivatives, by a simplex that reflects, grows and shrinks.
 *
 * <p>Source: J. A. Nelder and R. Mead, Computer Journal 7 (1965) 308; coefficients 1, 2, 1/2, 1/2.
 */
final class Simplex {
  private Simplex() {}

  /** A place and its value. */
  record Point(double[] at, double value) {}

  /**
   * The best place found.
   *
   * @param function to be made least; must be a number everywhere
   * @param start one corner of the first simplex
   * @param size its other corners lie so far from it, one along each axis
   * @param evaluationsMax of the function, roughly
   */
  static Point least(
      ToDoubleFunction<double[]> function, double[] start, double size, int evaluationsMax) {
    int n = start.length;
    Point[] points = new Point[n + 1];
    for (int i = 0; i <= n; i++) {
      double[] at = start.clone();
      if (i < n) {
        at[i] += size;
      }
      points[i] = new Point(at, function.applyAsDouble(at));
    }
    int evaluations = n + 1;
    while (evaluations < evaluationsMax) {
      Arrays.sort(points, Comparator.comparingDouble(Point::value));
      double[] middle = middle(points);
      Point reflected = along(function, middle, points[n], -1);
      evaluations++;
      if (reflected.value() < points[0].value()) {
        Point farther = along(function, middle, points[n], -2);
        evaluations++;
        points[n] = farther.value() < reflected.value() ? farther : reflected;
      } else if (reflected.value() < points[n - 1].value()) {
        points[n] = reflected;
      } else {
        boolean outside = reflected.value() < points[n].value();
        Point nearer = along(function, middle, points[n], outside ? -0.5 : 0.5);
        evaluations++;
        if (nearer.value() < Math.min(reflected.value(), points[n].value())) {
          points[n] = nearer;
        } else {
          shrink(function, points);
          evaluations += n;
        }
      }
    }
    return Arrays.stream(points).min(Comparator.comparingDouble(Point::value)).orElseThrow();
  }

  /** Mean of all but the last. */
  private static double[] middle(Point[] points) {
    int n = points.length - 1;
    double[] middle = new double[n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        middle[j] += points[i].at()[j] / n;
      }
    }
    return middle;
  }

  private static Point along(
      ToDoubleFunction<double[]> function, double[] middle, Point worst, double times) {
    double[] at = new double[middle.length];
    for (int i = 0; i < at.length; i++) {
      at[i] = middle[i] + times * (worst.at()[i] - middle[i]);
    }
    return new Point(at, function.applyAsDouble(at));
  }

  private static void shrink(ToDoubleFunction<double[]> function, Point[] points) {
    for (int i = 1; i < points.length; i++) {
      double[] at = new double[points.length - 1];
      for (int j = 0; j < at.length; j++) {
        at[j] = (points[i].at()[j] + points[0].at()[j]) / 2;
      }
      points[i] = new Point(at, function.applyAsDouble(at));
    }
  }
}
