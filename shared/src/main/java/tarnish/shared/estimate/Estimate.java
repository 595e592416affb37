package tarnish.shared.estimate;

/**
 * A quantity with its standard uncertainty (one standard deviation, JCGM 100:2008), both in the
 * same SI unit.
 */
public record Estimate(double value, double standardUncertainty) {
  public Estimate {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value must be finite, got " + value);
    }
    if (!(standardUncertainty >= 0) || Double.isInfinite(standardUncertainty)) {
      throw new IllegalArgumentException(
          "standard uncertainty must be finite and not negative, got " + standardUncertainty);
    }
  }

  public static Estimate exact(double value) {
    return new Estimate(value, 0);
  }

  public Estimate times(double factor) {
    return new Estimate(value * factor, standardUncertainty * StrictMath.abs(factor));
  }

  /** The sum with an estimate whose error is independent of this one's. */
  public Estimate plusIndependent(Estimate other) {
    return new Estimate(
        value + other.value, StrictMath.hypot(standardUncertainty, other.standardUncertainty));
  }
}
