package tarnish.shared.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tarnish.shared.estimate.Estimate;

/** Laws that hold for whatever number is printed or read. */
class QuantitiesRoundTripTest {
  private static final long SEED = 1_889;
  private static final int TRIES = 500;

  private final RandomGenerator random = RandomGeneratorFactory.of("SplittableRandom").create(SEED);

  @ParameterizedTest
  @EnumSource(Unit.class)
  void whatWasPrintedReadsAsTheSameValue(Unit unit) {
    for (int i = 0; i < TRIES; i++) {
      double number = (random.nextDouble() - 0.5) * StrictMath.pow(10, random.nextInt(-6, 7));
      double valueSi = unit.toSi(number);
      String printed = Quantities.print(valueSi, unit, 12);
      double read = Quantities.parse(printed, unit.dimension());
      double slack = StrictMath.abs(unit.toSi(1e-12) - unit.toSi(0)) + StrictMath.ulp(valueSi);
      assertEquals(valueSi, read, slack, printed + ", seed " + SEED);
    }
  }

  @ParameterizedTest
  @EnumSource(Unit.class)
  void aDecimalThatAPersonWroteComesBackLetterByLetter(Unit unit) {
    for (int i = 0; i < TRIES; i++) {
      String written =
          random.nextInt(1, 2000) + "." + random.nextInt(0, 10) + random.nextInt(1, 10);
      String text = (written + " " + unit.symbol()).strip();
      double valueSi = Quantities.parse(text, unit.dimension());
      assertEquals(text, Quantities.print(valueSi, unit, 2), "seed " + SEED);
      assertEquals(text, Quantities.printShort(valueSi, unit), "seed " + SEED);
    }
  }

  @ParameterizedTest
  @EnumSource(Unit.class)
  void aPrintedEstimateIsWithinAHalfOfItsLastPlace(Unit unit) {
    for (int i = 0; i < TRIES; i++) {
      double value = random.nextDouble() * 1000;
      double uncertainty = value * StrictMath.pow(10, -1 - 4 * random.nextDouble());
      double si = unit.toSi(value);
      double siUncertainty = StrictMath.abs(unit.toSi(uncertainty) - unit.toSi(0));
      String printed = Quantities.printEstimate(new Estimate(si, siUncertainty), unit);
      String[] parts = printed.replaceAll("^\\(|\\).*$", "").split(" ± ");
      assertEquals(value, Double.parseDouble(parts[0]), 0.051 * uncertainty, printed);
      assertEquals(uncertainty, Double.parseDouble(parts[1]), 0.051 * uncertainty, printed);
      int digits = parts[1].replaceAll("^[0.]+", "").replace(".", "").length();
      assertTrue(digits >= 2, printed + ", seed " + SEED);
    }
  }

  @ParameterizedTest
  @EnumSource(
      value = Unit.class,
      names = {"SECOND"})
  void aPrintedDurationReadsAsTheSameTimeToItsSmallerUnit(Unit unit) {
    for (int i = 0; i < 20_000; i++) {
      double seconds = random.nextDouble() * StrictMath.pow(10, random.nextInt(0, 8));
      String printed = Quantities.printDuration(seconds);
      double read = Quantities.parse(printed, unit.dimension());
      double place = seconds < 9.95 ? 0.1 : seconds < 3599 ? 1 : seconds < 86_300 ? 60 : 3600;
      assertEquals(seconds, read, place / 2 + 1e-6, printed + ", seed " + SEED);
    }
  }

  @ParameterizedTest
  @EnumSource(Dimension.class)
  void noRandomTextIsAnythingButAFiniteValueOrARefusal(Dimension dimension) {
    String letters = "0123456789.,eE+-±° CKmbarPhsindgµ/³%·() \u0000x";
    for (int i = 0; i < 5_000; i++) {
      StringBuilder text = new StringBuilder();
      for (int length = random.nextInt(12); length > 0; length--) {
        text.append(letters.charAt(random.nextInt(letters.length())));
      }
      try {
        double value = Quantities.parse(text.toString(), dimension);
        assertTrue(Double.isFinite(value), text + ", seed " + SEED);
      } catch (NotAQuantity refused) {
        assertTrue(refused.getMessage().startsWith("found "), text + ", seed " + SEED);
      }
    }
  }
}
