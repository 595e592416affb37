package tarnish.controller.app;

import java.util.SplittableRandom;

/** Normal random numbers of a seed, for trials. */
final class Chance {
  private final SplittableRandom random;

  Chance(long seed) {
    random = new SplittableRandom(seed);
  }

  double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  boolean happens(double probability) {
    return random.nextDouble() < probability;
  }

  int below(int bound) {
    return random.nextInt(bound);
  }
}
