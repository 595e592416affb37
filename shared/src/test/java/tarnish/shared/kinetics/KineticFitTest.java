package tarnish.shared.kinetics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class KineticFitTest {
  private static final double NOISE = 0.005;

  @ParameterizedTest
  @EnumSource
  void pointsWithoutNoiseGiveTheirLawBack(RateLaw law) {
    InventedSoak soak = InventedSoak.between(law, 0.15, 0.85, 30);
    KineticFit fit = KineticFit.of(law, soak.points(0, 1), Start.FITTED, OptionalDouble.empty());
    assertEquals(soak.rate(), fit.rate().value(), 1e-7 * soak.rate());
    assertEquals(0.15, fit.startConversion().value(), 1e-7);
    assertEquals(0.85, fit.conversionAt(soak.lengthS()), 1e-7);
  }

  @ParameterizedTest
  @EnumSource
  void bareStartGivesTheRateBack(RateLaw law) {
    InventedSoak soak = InventedSoak.between(law, 0, 0.7, 20);
    KineticFit fit = KineticFit.of(law, soak.points(0, 1), Start.BARE, OptionalDouble.empty());
    assertEquals(soak.rate(), fit.rate().value(), 1e-9 * soak.rate());
    assertEquals(0, fit.startConversion().standardUncertainty());
    assertEquals(19, fit.degreesOfFreedom());
  }

  @ParameterizedTest
  @EnumSource
  void estimatesAndCovarianceAgreeWithAnIndependentLeastSquaresSolver(RateLaw law) {
    InventedSoak soak = InventedSoak.between(law, 0.2, 0.8, 25);
    for (int seed = 0; seed < 10; seed++) {
      List<UptakePoint> points = soak.points(NOISE, seed);
      KineticFit fit = KineticFit.of(law, points, Start.FITTED, OptionalDouble.empty());
      // The rate in units of its true value, so that both parameters are of one size.
      LeastSquaresOptimizer.Optimum expected =
          new LevenbergMarquardtOptimizer()
              .optimize(
                  new LeastSquaresBuilder()
                      .start(new double[] {0.9, 0.18})
                      .target(points.stream().mapToDouble(UptakePoint::conversion).toArray())
                      .model(x -> model(law, points, soak, x), x -> jacobian(law, points, soak, x))
                      .lazyEvaluation(false)
                      .maxEvaluations(1000)
                      .maxIterations(1000)
                      .build());
      double rate = expected.getPoint().getEntry(0) * soak.rate();
      assertEquals(rate, fit.rate().value(), 1e-5 * rate);
      assertEquals(expected.getPoint().getEntry(1), fit.startConversion().value(), 1e-6);
      RealMatrix covariance = expected.getCovariances(1e-14);
      double variance = expected.getCost() * expected.getCost() / (points.size() - 2);
      assertEquals(
          Math.sqrt(covariance.getEntry(0, 0) * variance) * soak.rate(),
          fit.rate().standardUncertainty(),
          1e-3 * fit.rate().standardUncertainty());
      assertEquals(
          covariance.getEntry(0, 1) * variance * soak.rate(),
          fit.rateStartCovariance(),
          1e-3 * Math.abs(fit.rateStartCovariance()));
    }
  }

  private static double[] model(
      RateLaw law, List<UptakePoint> points, InventedSoak soak, double[] x) {
    return points.stream()
        .mapToDouble(p -> law.conversion(law.integral(x[1]) + x[0] * soak.rate() * p.timeS()))
        .toArray();
  }

  /** By central differences, so that no derivative is shared with the code under test. */
  private static double[][] jacobian(
      RateLaw law, List<UptakePoint> points, InventedSoak soak, double[] x) {
    double[][] jacobian = new double[points.size()][2];
    for (int j = 0; j < 2; j++) {
      double[] above = x.clone();
      double[] below = x.clone();
      above[j] += 1e-6;
      below[j] -= 1e-6;
      double[] high = model(law, points, soak, above);
      double[] low = model(law, points, soak, below);
      for (int i = 0; i < high.length; i++) {
        jacobian[i][j] = (high[i] - low[i]) / 2e-6;
      }
    }
    return jacobian;
  }

  @ParameterizedTest
  @EnumSource
  void theIntervalOfTheRateHoldsTheTruthAsOftenAsItSays(RateLaw law) {
    InventedSoak soak = InventedSoak.between(law, 0.1, 0.7, 40);
    int seeds = 1000;
    int inside = 0;
    for (int seed = 0; seed < seeds; seed++) {
      KineticFit fit =
          KineticFit.of(law, soak.points(NOISE, seed), Start.FITTED, OptionalDouble.of(NOISE));
      double error = Math.abs(fit.rate().value() - soak.rate());
      inside += error <= fit.rateHalfWidth(0.95) ? 1 : 0;
    }
    double share = (double) inside / seeds;
    assertTrue(share >= 0.93 && share <= 0.97, () -> law + ": " + share + ", seeds 0 to 999");
  }

  @ParameterizedTest
  @EnumSource
  void goodLawsAreSeldomRefused(RateLaw law) {
    InventedSoak soak = InventedSoak.between(law, 0.1, 0.7, 40);
    int refused = 0;
    for (int seed = 0; seed < 500; seed++) {
      KineticFit fit =
          KineticFit.of(law, soak.points(NOISE, seed), Start.FITTED, OptionalDouble.of(NOISE));
      refused += fit.goodness().fits() ? 0 : 1;
    }
    assertTrue(refused <= 25, law + " refused " + refused + " of 500 times");
  }

  @Test
  void tooFewOrUnorderedPointsAreRefused() {
    List<UptakePoint> points =
        InventedSoak.between(RateLaw.LINEAR, 0, 0.5, KineticFit.FEWEST_POINTS - 1).points(0, 1);
    OptionalDouble none = OptionalDouble.empty();
    assertThrows(
        IllegalArgumentException.class,
        () -> KineticFit.of(RateLaw.LINEAR, points, Start.BARE, none));
    List<UptakePoint> twice = new java.util.ArrayList<>(points);
    twice.add(points.get(4));
    assertThrows(
        IllegalArgumentException.class,
        () -> KineticFit.of(RateLaw.LINEAR, twice, Start.BARE, none));
    assertThrows(IllegalArgumentException.class, () -> new UptakePoint(Double.NaN, 0.5));
    assertThrows(IllegalArgumentException.class, () -> new UptakePoint(1, Double.NaN));
  }
}
