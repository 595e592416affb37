package tarnish.shared.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class JointEstimateTest {
  private static final long SEED = 20;

  // JCGM 100:2008, example H.2, simultaneous resistance and reactance; data from memory, in V, mA,
  // rad.
  private static final double[][] IMPEDANCE = {
    {5.007, 4.994, 5.005, 4.990, 4.999},
    {19.663, 19.639, 19.640, 19.685, 19.678},
    {1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
  };

  @Test
  void meansAndCorrelationsOfSimultaneousObservationsAreThoseOfThePublishedGuide() {
    JointEstimate means = JointEstimate.ofMeans(IMPEDANCE);
    assertEquals(4.9990, means.value(0), 0.00005);
    assertEquals(0.0032, means.at(0).standardUncertainty(), 0.00005);
    assertEquals(19.6610, means.value(1), 0.00005);
    assertEquals(0.0095, means.at(1).standardUncertainty(), 0.00005);
    assertEquals(1.04446, means.value(2), 0.000005);
    assertEquals(0.00075, means.at(2).standardUncertainty(), 0.000005);
    assertEquals(-0.3553, means.correlation(0, 1), 0.0001);
    assertEquals(0.8576, means.correlation(0, 2), 0.0001);
    assertEquals(-0.6451, means.correlation(1, 2), 0.0001);
  }

  @Test
  void resistanceReactanceAndImpedanceAreThoseOfThePublishedGuide() {
    JointEstimate result =
        JointEstimate.ofMeans(IMPEDANCE)
            .propagate(
                List.of(
                    x -> 1000 * x[0] / x[1] * Math.cos(x[2]),
                    x -> 1000 * x[0] / x[1] * Math.sin(x[2]),
                    x -> 1000 * x[0] / x[1]));
    assertEquals(127.732, result.value(0), 0.0005);
    assertEquals(0.071, result.at(0).standardUncertainty(), 0.0005);
    assertEquals(219.847, result.value(1), 0.0005);
    // The guide prints 0.295; unrounded correlations give 0.2956.
    assertEquals(0.296, result.at(1).standardUncertainty(), 0.0005);
    assertEquals(254.260, result.value(2), 0.0005);
    assertEquals(0.236, result.at(2).standardUncertainty(), 0.0005);
    assertEquals(-0.588, result.correlation(0, 1), 0.0005);
    assertEquals(-0.485, result.correlation(0, 2), 0.0005);
    assertEquals(0.993, result.correlation(1, 2), 0.0005);
  }

  @Test
  void leavingTheCorrelationsOutWouldMisstateTheResistanceByFar() {
    JointEstimate means = JointEstimate.ofMeans(IMPEDANCE);
    double without =
        JointEstimate.independent(List.of(means.at(0), means.at(1), means.at(2)))
            .propagate(x -> 1000 * x[0] / x[1] * Math.cos(x[2]))
            .standardUncertainty();
    assertEquals(0.195, without, 0.001);
  }

  @Test
  void aSumOfLikeErrorsAddsThemAndADifferenceCancelsThem() {
    JointEstimate pair =
        JointEstimate.correlated(
            List.of(new Estimate(10, 2), new Estimate(4, 2)), new double[][] {{1, 1}, {1, 1}});
    assertEquals(4, pair.standardUncertainty(new double[] {1, 1}), 1e-12);
    assertEquals(0, pair.standardUncertainty(new double[] {1, -1}), 1e-12);
  }

  @Test
  void propagationAgreesWithADrawOfManyValues() {
    SplittableRandom random = new SplittableRandom(SEED);
    JointEstimate pair =
        JointEstimate.correlated(
            List.of(new Estimate(2, 0.01), new Estimate(5, 0.03)),
            new double[][] {{1, 0.6}, {0.6, 1}});
    Estimate product = pair.propagate(x -> x[0] * x[1] * x[1]);
    int draws = 200_000;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < draws; i++) {
      double first = random.nextGaussian();
      double second = 0.6 * first + 0.8 * random.nextGaussian();
      double x = 2 + 0.01 * first;
      double y = 5 + 0.03 * second;
      double away = x * y * y - 50;
      sum += away;
      squares += away * away;
    }
    double mean = sum / draws;
    double deviation = Math.sqrt(squares / draws - mean * mean);
    assertEquals(deviation, product.standardUncertainty(), 0.01 * deviation, "seed " + SEED);
  }

  @Test
  void whatIsNoCovarianceMatrixIsRefused() {
    double[] two = {1, 2};
    for (double[][] bad :
        new double[][][] {
          {{1, 0}},
          {{1, 0.5}, {0.4, 1}},
          {{1, 1.1}, {1.1, 1}},
          {{-1, 0}, {0, 1}},
          {{Double.NaN, 0}, {0, 1}},
          {{1, Double.NaN}, {Double.NaN, 1}}
        }) {
      assertThrows(IllegalArgumentException.class, () -> JointEstimate.of(two, bad));
    }
    assertThrows(
        IllegalArgumentException.class,
        () -> JointEstimate.of(new double[] {Double.NaN}, new double[][] {{1}}));
    assertThrows(IllegalArgumentException.class, () -> JointEstimate.ofMeans(new double[][] {{1}}));
  }
}
