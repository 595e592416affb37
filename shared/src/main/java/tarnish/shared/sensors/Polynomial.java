package tarnish.shared.sensors;

/** One published polynomial c0 + c1 x + c2 x² + ... and the interval of x it was fitted on. */
final class Polynomial {
  final double low;
  final double high;
  private final double[] coefficients;

  Polynomial(double low, double high, double... coefficients) {
    this.low = low;
    this.high = high;
    this.coefficients = coefficients;
  }

  double at(double x) {
    double sum = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      sum = sum * x + coefficients[i];
    }
    return sum;
  }

  /** The first of adjoining pieces that reaches up to {@code x}, or the last one. */
  static Polynomial pieceFor(Polynomial[] pieces, double x) {
    for (Polynomial piece : pieces) {
      if (x < piece.high) {
        return piece;
      }
    }
    return pieces[pieces.length - 1];
  }
}
