package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class JsonTest {
  private static final MathContext SEVEN = new MathContext(7);

  /** The quick way against decimal arithmetic, over twenty powers of ten. */
  @Test
  void drawnNumbersHaveSevenDigits() {
    long seed = 20_261_125;
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < 200_000; i++) {
      double value = (random.nextDouble() - 0.5) * StrictMath.pow(10, random.nextInt(-10, 10));
      double exact = new BigDecimal(value).round(SEVEN).doubleValue();
      // A tie within the rounding of the product may go either way: one unit of the last digit.
      double digit =
          StrictMath.pow(10, StrictMath.floor(StrictMath.log10(StrictMath.abs(value))) - 6);
      assertEquals(exact, Json.drawn(value), 1.01 * digit, "seed " + seed + ", " + value);
    }
    for (double value : new double[] {0, 273.15, 95_000, 999_999.96, 0.2094, 1, -0.2, 1e-12, 3e8}) {
      assertEquals(new BigDecimal(value).round(SEVEN).doubleValue(), Json.drawn(value));
    }
    assertNull(Json.drawn(Double.NaN));
  }
}
