package tarnish.shared.kinetics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LawChoiceTest {
  private static final int SEEDS = 60;

  @ParameterizedTest
  @EnumSource
  void theTrueLawIsChosenInMostCasesAtLowNoise(RateLaw law) {
    InventedSoak soak = InventedSoak.between(law, 0.05, 0.9, 40);
    int right = 0;
    for (int seed = 1000; seed < 1000 + SEEDS; seed++) {
      LawChoice choice = LawChoice.of(soak.points(0.005, seed), OptionalDouble.of(0.005));
      right += choice.best().map(KineticFit::law).filter(law::equals).isPresent() ? 1 : 0;
    }
    assertTrue(right >= 0.9 * SEEDS, law + " chosen " + right + " of " + SEEDS + " times");
  }

  @Test
  void neighbouringLawsAreNotToldApartByEarlyNoisyPoints() {
    InventedSoak soak = InventedSoak.between(RateLaw.GINSTLING_BROUNSHTEIN, 0.1, 0.4, 30);
    LawChoice choice = LawChoice.of(soak.points(0.01, 3), OptionalDouble.of(0.01));
    long laws = choice.plausible().stream().map(KineticFit::law).distinct().count();
    assertTrue(laws >= 2, "laws not ruled out: " + laws);
  }

  @Test
  void anIncubationTimeIsDescribedByNoLaw() {
    // Sigmoid, as nucleation makes it: slow, fast, slow. No law here has an inflection.
    List<UptakePoint> points = new ArrayList<>();
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < 40; i++) {
      double share = i / 39.0;
      double conversion = 1 - Math.exp(-4 * share * share * share);
      points.add(new UptakePoint(1000 * share, conversion + 0.005 * random.nextGaussian()));
    }
    assertTrue(LawChoice.of(points, OptionalDouble.of(0.005)).best().isEmpty());
    assertTrue(LawChoice.of(points, OptionalDouble.empty()).best().isEmpty());
  }

  @Test
  void moreScatterThanTheStatedNoiseRefusesEveryLaw() {
    InventedSoak soak = InventedSoak.between(RateLaw.JANDER, 0.1, 0.8, 40);
    List<UptakePoint> points = soak.points(0.02, 7);
    assertTrue(LawChoice.of(points, OptionalDouble.of(0.005)).best().isEmpty());
    assertEquals(
        "the points scatter more about the curve than their stated noise",
        LawChoice.of(points, OptionalDouble.of(0.005)).ranked().get(0).goodness().words());
  }

  @Test
  void bareSolidIsPreferredWhereTheStartAddsNothing() {
    InventedSoak soak = InventedSoak.between(RateLaw.SHRINKING_SPHERE, 0, 0.9, 40);
    int bare = 0;
    for (int seed = 0; seed < 40; seed++) {
      LawChoice choice = LawChoice.of(soak.points(0.005, seed), OptionalDouble.of(0.005));
      bare += choice.best().filter(fit -> fit.start() == Start.BARE).isPresent() ? 1 : 0;
    }
    assertTrue(bare >= 30, "bare start chosen " + bare + " of 40 times");
  }
}
