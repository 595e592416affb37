package tarnish.shared.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.api.Test;

class DistributionsTest {
  private static final double[] FREEDOMS = {1, 2, 3.5, 5, 16, 16.76, 29, 100, 1000};
  private static final double[] PROBABILITIES = {0.001, 0.05, 0.4, 0.6, 0.9, 0.95, 0.975, 0.995};

  @Test
  void studentQuantilesAgreeWithAnIndependentLibrary() {
    for (double freedom : FREEDOMS) {
      TDistribution reference = new TDistribution(freedom);
      for (double probability : PROBABILITIES) {
        double expected = reference.inverseCumulativeProbability(probability);
        assertEquals(
            expected,
            Distributions.studentQuantile(probability, freedom),
            1e-7 * Math.max(1, Math.abs(expected)),
            () -> "p " + probability + ", ν " + freedom);
        assertEquals(
            reference.cumulativeProbability(expected),
            Distributions.student(expected, freedom),
            1e-11);
      }
    }
  }

  @Test
  void chiSquareTailsAgreeWithAnIndependentLibrary() {
    for (double freedom : FREEDOMS) {
      for (double share : new double[] {0.1, 0.7, 1, 1.3, 3}) {
        double chiSquare = share * freedom;
        assertEquals(
            1 - new ChiSquaredDistribution(freedom).cumulativeProbability(chiSquare),
            Distributions.chiSquareUpper(chiSquare, freedom),
            1e-10,
            () -> "χ² " + chiSquare + ", ν " + freedom);
      }
    }
  }

  @Test
  void normalAgreesWithAnIndependentLibraryAndIsTheLimitOfStudent() {
    NormalDistribution reference = new NormalDistribution();
    for (double z = -6; z <= 6; z += 0.37) {
      assertEquals(reference.cumulativeProbability(z), Distributions.normal(z), 1e-14);
    }
    for (double probability : PROBABILITIES) {
      double z = Distributions.normalQuantile(probability);
      assertEquals(probability, Distributions.normal(z), 1e-14);
      assertEquals(z, Distributions.studentQuantile(probability, Double.POSITIVE_INFINITY), 1e-14);
      assertEquals(z, Distributions.studentQuantile(probability, 5e6), 1e-5);
    }
  }

  // JCGM 100:2008, table G.2.
  @Test
  void coverageFactorsAreThoseOfThePublishedTable() {
    assertEquals(12.71, Distributions.coverageFactor(0.95, 1), 0.005);
    assertEquals(2.23, Distributions.coverageFactor(0.95, 10), 0.005);
    assertEquals(2.921, Distributions.coverageFactor(0.99, 16), 0.0005);
    assertEquals(1.960, Distributions.coverageFactor(0.95, Double.POSITIVE_INFINITY), 0.0005);
  }

  @Test
  void fractionalDegreesOfFreedomAreCutNotRounded() {
    assertEquals(
        Distributions.coverageFactor(0.99, 16), Distributions.coverageFactor(0.99, 16.99), 0);
  }

  @Test
  void whatIsNoProbabilityOrNoFreedomIsRefused() {
    for (double bad : new double[] {0, 1, -0.1, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> Distributions.studentQuantile(bad, 5));
    }
    for (double bad : new double[] {0, -1, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> Distributions.studentQuantile(0.9, bad));
      assertThrows(IllegalArgumentException.class, () -> Distributions.chiSquareUpper(1, bad));
    }
    assertThrows(IllegalArgumentException.class, () -> Distributions.coverageFactor(0.95, 0.9));
    assertThrows(IllegalArgumentException.class, () -> Distributions.normal(Double.NaN));
  }
}
