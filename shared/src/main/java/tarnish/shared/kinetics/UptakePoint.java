package tarnish.shared.kinetics;

/**
 * A conversion measured during one soak.
 *
 * @param timeS since the soak began, in s at temperature, 0 or more
 * @param conversion α; noise may carry it a little below 0 or above 1
 */
public record UptakePoint(double timeS, double conversion) {
  public UptakePoint {
    if (!(timeS >= 0) || Double.isInfinite(timeS)) {
      throw new IllegalArgumentException("time must be finite and at least 0 s, got " + timeS);
    }
    if (!(conversion > -1 && conversion < 2)) {
      throw new IllegalArgumentException(
          "a measured conversion lies about 0 to 1, got " + conversion);
    }
  }
}
