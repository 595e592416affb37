package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Source: J. A. Nelder and R. Mead, Computer Journal 7 (1965) 308, whose first test this is. */
class SimplexTest {

  /** Rosenbrock's valley, y = 100 (x2 - x1²)² + (1 - x1)², from (-1.2, 1): 0 at (1, 1). */
  @Test
  void itFindsTheEndOfRosenbrocksValley() {
    Simplex.Point least =
        Simplex.least(
            x -> 100 * Math.pow(x[1] - x[0] * x[0], 2) + Math.pow(1 - x[0], 2),
            new double[] {-1.2, 1},
            0.5,
            400);
    assertTrue(least.value() < 1e-8, "value " + least.value());
    assertEquals(1, least.at()[0], 1e-3);
    assertEquals(1, least.at()[1], 1e-3);
  }

  /** Powell's quartic function from (3, -1, 0, 1): 0 at the origin. */
  @Test
  void itFindsTheLeastOfPowellsQuartic() {
    Simplex.Point least =
        Simplex.least(
            x ->
                Math.pow(x[0] + 10 * x[1], 2)
                    + 5 * Math.pow(x[2] - x[3], 2)
                    + Math.pow(x[1] - 2 * x[2], 4)
                    + 10 * Math.pow(x[0] - x[3], 4),
            new double[] {3, -1, 0, 1},
            1,
            800);
    assertTrue(least.value() < 1e-6, "value " + least.value());
  }
}
