package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class LeakShapeTest {
  private static final double WATCH_S = 600;

  @Test
  void aLineThatIsStraightBeyondItsNoiseIsALeakForTheGreaterPart() {
    LeakShape shape = LeakShape.of(0.08, 0.08, 1e-4, WATCH_S);
    assertTrue(shape.share() > 0.95, shape::toString);
    assertTrue(shape.uncertaintyPaPerS(0.08, 1e-4) < 0.05 * 0.08, shape::toString);
  }

  @Test
  void aRiseThatGetsSteeperIsALeakForTheGreaterPartToo() {
    assertTrue(LeakShape.of(0.06, 0.08, 1e-4, WATCH_S).share() > 0.95);
  }

  /** Twelve times as steep is the quickest outgassing: exp(300 s/120 s). */
  @Test
  void aRiseThatFallsToNearlyNothingHasNearlyNoLeakUnderIt() {
    assertTrue(LeakShape.of(0.08, 0.08 / Math.exp(2.5), 1e-4, WATCH_S).share() < 0.02);
    assertTrue(LeakShape.of(0.8, 0.002, 1e-6, WATCH_S).share() < 0.02, "beyond the quickest");
  }

  /** The triangle's moments, 1/3 and 1/6, are what is left where noise hides the shape. */
  @Test
  void withinTheNoiseTheTriangleFromNothingToTheRiseIsLeft() {
    LeakShape shape = LeakShape.of(0.012, 0.010, 1, WATCH_S);
    assertEquals(1 / 3.0, shape.share(), 2e-3);
    assertEquals(1 / 6.0, shape.meanSquare(), 2e-3);
    // Var(s b) = E(s²) Var(b) + b² Var(s) for independent s and b.
    assertEquals(
        Math.sqrt(0.04 * 0.04 / 6 + 0.01 * 0.01 / 18), shape.uncertaintyPaPerS(0.01, 0.04), 1e-4);
  }

  @Test
  void noRiseIsNoLeakAndStillUncertainByTheNoise() {
    LeakShape shape = LeakShape.of(0.001, -0.002, 0.003, WATCH_S);
    assertTrue(shape.share() >= 0 && shape.share() <= 1);
    assertTrue(shape.uncertaintyPaPerS(0, 0.003) > 0.3 * 0.003);
  }

  /**
   * Monte Carlo of the same model (JCGM 101:2008): leaks drawn as they are thought to be, told from
   * noisy slopes, lie within two standard uncertainties as often as they should.
   */
  @Test
  void leaksDrawnAsThoughtAreCoveredAsStatedAndNotBiased() {
    Random random = new Random(20261130);
    int covered = 0;
    double off = 0;
    double stated = 0;
    int runs = 4000;
    for (int i = 0; i < runs; i++) {
      double share = 1 - Math.sqrt(random.nextDouble());
      double timeS = WATCH_S * 0.2 * Math.pow(20, random.nextDouble());
      double rise = 0.05;
      double noise = 0.001 * Math.pow(20, random.nextDouble());
      double first = rise * (share + (1 - share) * Math.exp(300 / timeS));
      double firstSeen = first + noise * random.nextGaussian();
      double secondSeen = rise + noise * random.nextGaussian();
      LeakShape shape = LeakShape.of(firstSeen, secondSeen, noise, WATCH_S);
      double error = shape.share() * Math.max(0, secondSeen) - share * rise;
      double u = shape.uncertaintyPaPerS(Math.max(0, secondSeen), noise);
      covered += Math.abs(error) <= 1.96 * u ? 1 : 0;
      off += error / runs;
      stated += u / runs;
    }
    assertEquals(0.95, (double) covered / runs, 0.025);
    assertTrue(Math.abs(off) < 0.15 * stated, off + " of " + stated);
  }
}
