package tarnish.shared.kinetics;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Points of a soak that follows a law, with normal noise from a seed: invented. */
record InventedSoak(RateLaw law, double rate, double start, double lengthS, int count) {

  /** A soak that goes from {@code start} to {@code end} in 10 h. */
  static InventedSoak between(RateLaw law, double start, double end, int count) {
    double lengthS = 36_000;
    return new InventedSoak(
        law, (law.integral(end) - law.integral(start)) / lengthS, start, lengthS, count);
  }

  List<UptakePoint> points(double noise, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<UptakePoint> points = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double timeS = lengthS * i / (count - 1);
      points.add(new UptakePoint(timeS, truth(timeS) + noise * random.nextGaussian()));
    }
    return points;
  }

  double truth(double timeS) {
    return law.conversion(law.integral(start) + rate * timeS);
  }

  double timeTo(double conversion) {
    return (law.integral(conversion) - law.integral(start)) / rate;
  }
}
