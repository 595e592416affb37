package tarnish.shared.kinetics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class RateLawTest {
  private static final List<RateLaw> COLUMNS =
      List.of(
          RateLaw.PARABOLIC,
          RateLaw.CYLINDER_DIFFUSION,
          RateLaw.JANDER,
          RateLaw.GINSTLING_BROUNSHTEIN,
          RateLaw.SHRINKING_CYLINDER,
          RateLaw.SHRINKING_SPHERE,
          RateLaw.FIRST_ORDER);

  // Computed independently from the textbook formulas (Khawam and Flanagan 2006).
  @ParameterizedTest
  @CsvSource({
    "0.10, 0.010000, 0.005176, 0.001191, 0.001164, 0.051317, 0.034511, 0.105361",
    "0.25, 0.062500, 0.034238, 0.008361, 0.007852, 0.133975, 0.091440, 0.287682",
    "0.50, 0.250000, 0.153426, 0.042559, 0.036706, 0.292893, 0.206299, 0.693147",
    "0.75, 0.562500, 0.403426, 0.136929, 0.103150, 0.500000, 0.370039, 1.386294",
    "0.90, 0.810000, 0.669741, 0.287126, 0.184557, 0.683772, 0.535841, 2.302585",
    "0.95, 0.902500, 0.800213, 0.398915, 0.230946, 0.776393, 0.631597, 2.995732"
  })
  void integralFormsAgreeWithTheTable(
      double conversion,
      double d1,
      double d2,
      double d3,
      double d4,
      double r2,
      double r3,
      double f1) {
    double[] expected = {d1, d2, d3, d4, r2, r3, f1};
    for (int i = 0; i < expected.length; i++) {
      assertEquals(expected[i], COLUMNS.get(i).integral(conversion), 1e-6, COLUMNS.get(i).words());
    }
    assertEquals(conversion, RateLaw.LINEAR.integral(conversion), 0);
  }

  @ParameterizedTest
  @CsvSource({
    "PARABOLIC, 3.2400",
    "JANDER, 6.7465",
    "GINSTLING_BROUNSHTEIN, 5.0280",
    "SHRINKING_SPHERE, 2.5974",
    "FIRST_ORDER, 3.3219"
  })
  void shapesAreThoseOfTheTable(RateLaw law, double ratio) {
    assertEquals(ratio, law.integral(0.9) / law.integral(0.5), 1e-4);
  }

  @ParameterizedTest
  @EnumSource
  void inverseUndoesTheIntegralForm(RateLaw law) {
    for (int i = 0; i < 1000; i++) {
      double conversion = i / 1000.0;
      assertEquals(conversion, law.conversion(law.integral(conversion)), 1e-12, law.words());
    }
    for (double conversion : new double[] {1e-9, 1e-6, 1e-4, 0.9999}) {
      double back = law.conversion(law.integral(conversion));
      assertEquals(conversion, back, 1e-6 * conversion, law.words());
    }
  }

  @ParameterizedTest
  @EnumSource
  void slopeIsOneOverTheDerivativeOfTheIntegralForm(RateLaw law) {
    for (double conversion = 0.02; conversion < 0.99; conversion += 0.03) {
      double h = 1e-6;
      double derivative = (law.integral(conversion + h) - law.integral(conversion - h)) / (2 * h);
      assertEquals(1 / derivative, law.slope(conversion), 1e-5 / derivative, law.words());
    }
  }

  @ParameterizedTest
  @EnumSource
  void conversionStaysCompleteFromCompletionOn(RateLaw law) {
    assertEquals(0, law.conversion(0), 0);
    assertEquals(law.complete(), law.integral(1), 0);
    if (Double.isFinite(law.complete())) {
      assertEquals(law.complete(), law.integral(1 - 1e-12), 1e-3);
      assertEquals(1, law.conversion(law.complete()), 0);
      assertEquals(1, law.conversion(7), 0);
    }
  }

  @ParameterizedTest
  @EnumSource
  void whatIsNoConversionIsRefused(RateLaw law) {
    for (double bad : new double[] {-0.001, 1.001, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> law.integral(bad));
      assertThrows(IllegalArgumentException.class, () -> law.slope(bad));
    }
    assertThrows(IllegalArgumentException.class, () -> law.conversion(-1e-9));
    assertThrows(IllegalArgumentException.class, () -> law.conversion(Double.NaN));
  }
}
