package tarnish.shared.sensors;

import java.util.function.DoubleUnaryOperator;

/** Numerical inversion of a function that only rises. */
final class RisingFunction {
  // Halving a bracket of a few hundred kelvin 60 times leaves less than a double can tell apart.
  private static final int HALVINGS = 60;

  private RisingFunction() {}

  /** The x between {@code low} and {@code high} where {@code function} reaches {@code target}. */
  static double inverse(DoubleUnaryOperator function, double target, double low, double high) {
    double below = low;
    double above = high;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = 0.5 * (below + above);
      if (function.applyAsDouble(middle) < target) {
        below = middle;
      } else {
        above = middle;
      }
    }
    return 0.5 * (below + above);
  }
}
