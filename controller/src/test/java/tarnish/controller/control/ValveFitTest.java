package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.controller.control.ValveFlow.Appetite;
import tarnish.controller.control.ValveFlow.Block;
import tarnish.shared.estimate.Estimate;

/**
 * The fit against least squares solved by elimination. About a fifth of pure oxygen went unseen and
 * nobody knows how much is left, so that no bound cuts the fit.
 */
class ValveFitTest {
  private static final double A0 = 4e-8;
  private static final double UA = 3e-8;
  private static final double STEP_VARIANCE = 1e-13;
  private static final ValveFit.Beforehand KNOWN =
      new ValveFit.Beforehand(new Estimate(A0, UA), STEP_VARIANCE, new Estimate(0.995, 1e-3));

  private static Block block(
      int pulses, double flow, double step, double seen, double heat, double error, int exchanges) {
    return new Block(
        pulses, flow, step, seen, heat, error, new Appetite(0, 0, 0, exchanges), 0, false);
  }

  /** Flow, hidden share, excess of heat, the balance's error and what the gauge scatters by. */
  private static Block of(
      double flow, double hidden, double heat, double error, double scatterMol, int exchanges) {
    double seen = 0.05 * flow;
    return block(16, flow, 1.02 * flow * (1 - hidden) + scatterMol, seen, heat, error, exchanges);
  }

  /** Variance of S - V: both ends of each stretch, the valve's repetition, the heat's own. */
  private static double variance(Block b) {
    double gas =
        STEP_VARIANCE * (1 + b.appetite().exchanges())
            + StrictMath.pow(0.005 * b.flowMol(), 2) / b.pulses();
    double heat = A0 * StrictMath.hypot(9, 0.25 * b.errorKs());
    return gas + heat * heat;
  }

  /** Normal equations of r, a and g with what is known of them beforehand. */
  private static double[][] equations(Block... blocks) {
    double ug = 0.35 * A0;
    double[][] m = {
      {1 / (0.055 * 0.055), 0, 0, 1 / (0.055 * 0.055)},
      {0, 1 / (UA * UA), 0, A0 / (UA * UA)},
      {0, 0, 1 / (ug * ug), 0}
    };
    for (Block b : blocks) {
      double[] x = {b.flowMol(), -b.heatKs(), -b.errorKs(), b.stepMol() - b.seenMol()};
      for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 4; j++) {
          m[i][j] += x[i] * x[j] / variance(b);
        }
      }
    }
    return m;
  }

  /** Gauss and Jordan; with a unit vector on the right it gives a column of the inverse. */
  private static double[] solved(double[][] equations, int unit) {
    double[][] m = new double[3][];
    for (int i = 0; i < 3; i++) {
      m[i] = equations[i].clone();
      if (unit >= 0) {
        m[i][3] = i == unit ? 1 : 0;
      }
    }
    for (int p = 0; p < 3; p++) {
      for (int i = 0; i < 3; i++) {
        double factor = i == p ? 0 : m[i][p] / m[p][p];
        for (int j = 0; j < 4; j++) {
          m[i][j] -= factor * m[p][j];
        }
      }
    }
    return new double[] {m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]};
  }

  private static void assertFit(double widened, Block... blocks) {
    double[][] equations = equations(blocks);
    double[] found = solved(equations, -1);
    double ur = widened * StrictMath.sqrt(solved(equations, 0)[0]);
    double ua = widened * StrictMath.sqrt(solved(equations, 1)[1]);
    ValveFit fit = ValveFit.of(blocks, KNOWN);
    assertEquals(found[0], fit.ratio(), 0.01 * ur);
    assertEquals(ur, fit.ratioUncertainty(), 0.01 * ur);
    assertEquals(found[1], fit.molPerKelvinSecond(), 0.01 * ua);
    assertEquals(ua, fit.molPerKelvinSecondUncertainty(), 0.01 * ua);
    assertEquals(fit.molPerKelvinSecond(), fit.oxygenPerHeat().value());
    assertEquals(fit.molPerKelvinSecondUncertainty(), fit.oxygenPerHeat().standardUncertainty());
  }

  @Test
  void oneBlockMovesAllThreeByWhatTheyMayBeOff() {
    assertFit(1, of(1e-3, 0.2, 6000, 900, 0, 0));
    assertFit(1, of(1e-3, 0.2, 3000, 100, 0, 2));
  }

  @Test
  void blocksThatHidMuchAndLittleTellRatioAndHeatApart() {
    assertFit(
        1,
        of(1e-3, 0.3, 8000, 300, 0, 0),
        of(1e-3, 0.2, 5400, 900, 0, 1),
        of(1e-3, 0.1, 3000, 100, 0, 3),
        of(0.6e-3, 0.15, 2600, 500, 0, 0));
  }

  /** Up to five blocks their scatter is not judged. */
  @Test
  void fewBlocksThatScatterAreBelieved() {
    assertFit(
        1,
        of(1e-3, 0.3, 8000, 300, 4e-5, 0),
        of(1e-3, 0.2, 5400, 300, -4e-5, 0),
        of(1e-3, 0.15, 4200, 300, 5e-5, 0),
        of(1e-3, 0.12, 3400, 300, -4e-5, 0),
        of(1e-3, 0.1, 3000, 300, 4e-5, 0));
  }

  private static Block[] six(double scatterMol) {
    Block[] blocks = new Block[6];
    for (int i = 0; i < 6; i++) {
      double hidden = 0.3 - 0.04 * i;
      double off = i % 2 == 0 ? scatterMol : -scatterMol;
      blocks[i] = of(1e-3, hidden, 8000 - 1000 * i, 200 + 50 * i, off, 0);
    }
    return blocks;
  }

  /** Residuals' squares in their variances, over n - 2: above 1 all is widened by its root. */
  private static double chi(Block... blocks) {
    double[] x = solved(equations(blocks), -1);
    double sum = 0;
    for (Block b : blocks) {
      double left =
          b.stepMol() - b.seenMol() - (x[0] * b.flowMol() - x[1] * b.heatKs() - x[2] * b.errorKs());
      sum += left * left / variance(b);
    }
    return sum / (blocks.length - 2);
  }

  @Test
  void blocksThatScatterMoreThanTheyShouldWidenTheFit() {
    double chi = chi(six(1.2e-5));
    assertTrue(chi > 1.5, "they scatter: " + chi);
    assertFit(StrictMath.sqrt(chi), six(1.2e-5));
  }

  @Test
  void blocksThatAgreeBetterThanTheyShouldNarrowNothing() {
    assertTrue(chi(six(0)) < 1, "they agree: " + chi(six(0)));
    assertFit(1, six(0));
  }

  /** 5 per mille of each opening, and half the variance of a step at each end of a stretch. */
  @Test
  void theGasOfABlockIsKnownByItsEndsAndItsPulses() {
    Block once = block(4, 1e-3, 1e-3, 0, 0, 0, 0);
    assertEquals(1e-13 + 25e-12 / 4, ValveFit.gasVariance(once, 1e-13), 1e-20);
    Block thrice = block(4, 1e-3, 1e-3, 0, 0, 0, 2);
    assertEquals(3e-13 + 25e-12 / 4, ValveFit.gasVariance(thrice, 1e-13), 1e-20);
  }

  /** Where a bound cuts the ratio, the heat follows along the line that ties them. */
  @Test
  void whatIsPossibleOfTheRatioMovesTheHeatAlong() {
    // All seen, nothing hidden by the gauge: more cannot have come back than was there.
    Block b = block(16, 1e-3, 1.1e-3, 0, 4000, 50, 0);
    double[][] equations = equations(b);
    double[] free = solved(equations, -1);
    double[] column = solved(equations, 0);
    ValveFit fit = ValveFit.of(new Block[] {b}, KNOWN);
    assertTrue(fit.ratio() > free[0], "nothing is given back: " + fit.ratio());
    double perRatio = column[1] / column[0];
    assertEquals(free[1] + perRatio * (fit.ratio() - free[0]), fit.molPerKelvinSecond(), 1e-3 * UA);
    double own = solved(equations, 1)[1] - column[1] * column[1] / column[0];
    assertEquals(
        StrictMath.hypot(StrictMath.sqrt(own), perRatio * fit.ratioUncertainty()),
        fit.molPerKelvinSecondUncertainty(),
        1e-3 * UA);
  }
}
