package tarnish.shared.ledger;

import tarnish.shared.estimate.Estimate;

/**
 * Oxygen per formula unit gained by the gas account over some time, random and systematic error
 * kept apart: the first add as squares, the second in a line, for as long as the vessel is the
 * same.
 *
 * @param value atoms per formula unit
 * @param randomVariance of the value
 * @param systematic standard uncertainty from what all entries share
 */
record GasGain(double value, double randomVariance, double systematic) {
  static final GasGain NONE = new GasGain(0, 0, 0);

  GasGain plus(double gained, double random, double common) {
    return new GasGain(value + gained, randomVariance + random * random, systematic + common);
  }

  GasGain scaled(double factor) {
    return new GasGain(value * factor, randomVariance * factor * factor, systematic * factor);
  }

  /** From here on the shared error is another one. */
  GasGain closed() {
    return new GasGain(value, variance(), 0);
  }

  double variance() {
    return randomVariance + systematic * systematic;
  }

  Estimate from(Estimate start) {
    return start.plusIndependent(new Estimate(value, StrictMath.sqrt(variance())));
  }
}
