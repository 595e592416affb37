package tarnish.shared.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;

class NearestWordTest {
  private static final List<String> WORDS = List.of("soak", "ramp", "to", "evacuate to", "rate");

  @Test
  void slipsFindTheirWord() {
    assertEquals(Optional.of("soak"), NearestWord.to("sook", WORDS));
    assertEquals(Optional.of("soak"), NearestWord.to("saok", WORDS));
    assertEquals(Optional.of("rate"), NearestWord.to("Rate", WORDS));
    assertEquals(Optional.of("evacuate to"), NearestWord.to("evacuateto", WORDS));
  }

  @Test
  void whatIsFarFromEveryWordFindsNone() {
    assertEquals(Optional.empty(), NearestWord.to("temperature", WORDS));
    assertEquals(Optional.empty(), NearestWord.to("xy", WORDS));
    assertEquals(Optional.empty(), NearestWord.to("x".repeat(1_000_000), WORDS));
  }

  @Test
  void distancesAreKnownOnes() {
    assertEquals(3, NearestWord.distance("kitten", "sitting"));
    assertEquals(1, NearestWord.distance("ab", "ba"));
    assertEquals(4, NearestWord.distance("", "soak"));
  }

  @Test
  void theDistanceIsTheSameFromBothSidesAndZeroOnlyToItself() {
    long seed = 77;
    RandomGenerator random = RandomGeneratorFactory.of("SplittableRandom").create(seed);
    for (int i = 0; i < 5_000; i++) {
      String a = word(random);
      String b = word(random);
      int distance = NearestWord.distance(a, b);
      assertEquals(distance, NearestWord.distance(b, a), a + " " + b + ", seed " + seed);
      assertEquals(a.equals(b), distance == 0, a + " " + b + ", seed " + seed);
    }
  }

  private static String word(RandomGenerator random) {
    StringBuilder word = new StringBuilder();
    for (int length = random.nextInt(6); length > 0; length--) {
      word.append((char) ('a' + random.nextInt(3)));
    }
    return word.toString();
  }
}
