package tarnish.shared.reading;

/** One measured quantity at one tick: a value in SI units, or the reason there is none. */
public sealed interface Reading {

  /** A believable value in the channel's SI unit; never NaN or infinite. */
  record Good(double value) implements Reading {
    public Good {
      if (!Double.isFinite(value)) {
        throw new IllegalArgumentException("a good reading must be finite, got " + value);
      }
    }
  }

  /** No value, and why. */
  record Bad(BadReason reason) implements Reading {}
}
