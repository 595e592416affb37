package tarnish.shared.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class WitnessesTest {
  private static final long SEED = 21;

  @Test
  void independentWitnessesAreWeightedByTheInverseSquareOfTheirUncertainty() {
    Witnesses joined = Witnesses.joinIndependent(List.of(new Estimate(10, 1), new Estimate(13, 2)));
    // Weights 1 and 1/4: (10 + 13/4) / 1.25 = 10.6; u = 1/√1.25; χ² = 9/5.
    assertEquals(10.6, joined.joined().value(), 1e-12);
    assertEquals(0.894427, joined.joined().standardUncertainty(), 1e-6);
    assertEquals(0.8, joined.weights().get(0), 1e-12);
    assertEquals(1.8, joined.chiSquare(), 1e-12);
    assertEquals(0.1797, joined.probability(), 0.0001);
    assertTrue(joined.agree());
  }

  @Test
  void aSharedErrorIsNotAveragedAway() {
    // Both carry one error of 3 in common and one of 1 each of their own.
    Witnesses joined =
        Witnesses.join(JointEstimate.of(new double[] {10, 12}, new double[][] {{10, 9}, {9, 10}}));
    assertEquals(11, joined.joined().value(), 1e-12);
    assertEquals(Math.sqrt(9.5), joined.joined().standardUncertainty(), 1e-12);
    assertEquals(2, joined.chiSquare(), 1e-12);
  }

  @Test
  void strongCorrelationCarriesTheBestEstimateOutsideTheTwo() {
    // cov = r u1 u2 above u1² turns the worse witness's weight negative.
    Witnesses joined =
        Witnesses.join(
            JointEstimate.of(new double[] {10, 11}, new double[][] {{1, 1.8}, {1.8, 4}}));
    assertTrue(joined.weights().get(1) < 0);
    assertTrue(joined.joined().value() < 10);
    assertTrue(joined.joined().standardUncertainty() < 1);
  }

  @Test
  void witnessesFarApartAreSaidToContradictEachOther() {
    assertFalse(
        Witnesses.joinIndependent(List.of(new Estimate(0.80, 0.01), new Estimate(0.85, 0.01)))
            .agree());
  }

  @Test
  void agreeingWitnessesAreCalledContradictoryOneTimeInTwenty() {
    SplittableRandom random = new SplittableRandom(SEED);
    int contradictory = 0;
    int inside = 0;
    int trials = 4000;
    for (int i = 0; i < trials; i++) {
      double shared = 0.5 * random.nextGaussian();
      double first = 3 + shared + random.nextGaussian();
      double second = 3 + shared + 2 * random.nextGaussian();
      Witnesses joined =
          Witnesses.join(
              JointEstimate.of(
                  new double[] {first, second}, new double[][] {{1.25, 0.25}, {0.25, 4.25}}));
      contradictory += joined.agree() ? 0 : 1;
      double error = Math.abs(joined.joined().value() - 3);
      inside += error < 1.96 * joined.joined().standardUncertainty() ? 1 : 0;
    }
    // Four standard deviations of a count: 0.05 ± 0.014.
    assertEquals(0.05, (double) contradictory / trials, 0.014, "seed " + SEED);
    assertEquals(0.95, (double) inside / trials, 0.014, "seed " + SEED);
  }

  @Test
  void oneWitnessOrTwoThatAreTheSameAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> Witnesses.joinIndependent(List.of(new Estimate(1, 1))));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            Witnesses.join(JointEstimate.of(new double[] {1, 2}, new double[][] {{1, 1}, {1, 1}})));
    assertThrows(
        IllegalArgumentException.class,
        () -> Witnesses.joinIndependent(List.of(Estimate.exact(1), new Estimate(1, 1))));
  }
}
