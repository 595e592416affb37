package tarnish.controller.app;

/** Where in sorted numbers a share of them lies below. */
final class Quantile {
  private Quantile() {}

  static int index(int length, double share) {
    return (int) Math.min(length - 1.0, Math.floor(share * length));
  }
}
