package tarnish.shared.kinetics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ForecasterTest {
  private static final OptionalDouble NOISE = OptionalDouble.of(0.005);
  private static final int SEEDS = 300;

  /** Soaks that stop so early that laws are hard to tell apart, where it is most easily missed. */
  @ParameterizedTest
  @CsvSource({
    "FIRST_ORDER, 0.05, 0.5",
    "PARABOLIC, 0.2, 0.5",
    "JANDER, 0.2, 0.5",
    "GINSTLING_BROUNSHTEIN, 0.05, 0.5",
    "SHRINKING_SPHERE, 0.05, 0.5"
  })
  void theIntervalHoldsTheTrueTimeInNineOfTenForecasts(RateLaw law, double start, double end) {
    InventedSoak soak = InventedSoak.between(law, start, end, 40);
    double truth = soak.timeTo(0.95);
    int given = 0;
    int inside = 0;
    for (int seed = 5000; seed < 5000 + SEEDS; seed++) {
      Forecast forecast = Forecaster.forecast(soak.points(0.005, seed), NOISE, 0.95);
      if (forecast instanceof Forecast.At at) {
        given++;
        inside += at.fromS() <= truth && truth <= at.toS() ? 1 : 0;
      }
    }
    double share = (double) inside / given;
    assertTrue(given >= 0.9 * SEEDS, "only " + given + " forecasts");
    assertTrue(share >= 0.9, () -> law + ": " + share);
  }

  @Test
  void pointsThatNoLawDescribesGiveNoForecast() {
    List<UptakePoint> points = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      double share = i / 39.0;
      points.add(new UptakePoint(1000 * share, 0.8 * share * share * share));
    }
    assertTrue(reason(points, 0.95).startsWith("no rate law describes the points"));
  }

  @Test
  void theReasonForNoForecastSaysWhatIsMissing() {
    assertEquals(
        "only 4 points so far; at least 6 are needed",
        reason(InventedSoak.between(RateLaw.JANDER, 0, 0.3, 4).points(0, 1), 0.9));
    assertEquals(
        "the wanted conversion is reached already",
        reason(InventedSoak.between(RateLaw.JANDER, 0, 0.6, 30).points(0.005, 1), 0.5));
    assertTrue(
        reason(InventedSoak.between(RateLaw.FIRST_ORDER, 0, 0.9, 30).points(0.001, 1), 1)
            .contains("never becomes quite complete"));
    assertTrue(
        reason(InventedSoak.between(RateLaw.LINEAR, 0.3, 0.301, 30).points(0.005, 1), 0.9)
            .contains("wait for more uptake"));
  }

  @Test
  void theForecastDoesNotLieInThePast() {
    InventedSoak soak = InventedSoak.between(RateLaw.PARABOLIC, 0.05, 0.5, 40);
    for (int seed = 0; seed < 20; seed++) {
      if (Forecaster.forecast(soak.points(0.005, seed), NOISE, 0.503) instanceof Forecast.At at) {
        assertTrue(at.fromS() >= soak.lengthS());
        assertTrue(at.toS() >= at.timeS());
      }
    }
  }

  @Test
  void whatIsNoConversionIsRefused() {
    for (double bad : new double[] {0, 1.01, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> Forecaster.forecast(List.of(), NOISE, bad));
    }
  }

  /** Whatever the gas account says, a forecast or a reason comes back. */
  @Test
  void noPointsBreakTheForecaster() {
    for (long seed = 0; seed < 300; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      int kind = random.nextInt(5);
      double level = random.nextDouble();
      List<UptakePoint> points = new ArrayList<>();
      double timeS = random.nextInt(2) * 100.0;
      int count = random.nextInt(5, 30);
      for (int i = 0; i < count; i++) {
        double conversion =
            switch (kind) {
              case 0 -> random.nextDouble(-0.2, 1.2);
              case 1 -> level;
              case 2 -> level * (1 - (double) i / count);
              case 3 -> i == 0 ? 0 : 1;
              default -> 1;
            };
        points.add(new UptakePoint(timeS, conversion));
        timeS += random.nextDouble(1, 1000);
      }
      OptionalDouble noise = random.nextBoolean() ? NOISE : OptionalDouble.empty();
      Forecast forecast = Forecaster.forecast(points, noise, 0.9);
      if (forecast instanceof Forecast.At at) {
        String message = "seed " + seed + ": " + at;
        assertTrue(at.fromS() <= at.toS() && Double.isFinite(at.toS()), message);
      }
    }
  }

  private static String reason(List<UptakePoint> points, double wanted) {
    return assertInstanceOf(Forecast.None.class, Forecaster.forecast(points, NOISE, wanted))
        .reason();
  }
}
