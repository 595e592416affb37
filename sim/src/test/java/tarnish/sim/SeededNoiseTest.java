package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.sim.SolidSpec.Arrhenius;

class SeededNoiseTest {
  private static final int DRAWS = 1_000_000;

  @Test
  void normalNoiseHasTheMomentsAndTailsOfANormal() {
    SeededNoise noise = new SeededNoise(99, 0);
    double sum = 0;
    double squares = 0;
    double fourths = 0;
    int beyondTwo = 0;
    int beyondTail = 0;
    for (int i = 0; i < DRAWS; i++) {
      double x = noise.gaussian();
      sum += x;
      squares += x * x;
      fourths += x * x * x * x;
      beyondTwo += StrictMath.abs(x) > 2 ? 1 : 0;
      beyondTail += StrictMath.abs(x) > 3.5 ? 1 : 0;
    }
    assertEquals(0, sum / DRAWS, 0.005);
    assertEquals(1, squares / DRAWS, 0.01);
    assertEquals(3, fourths / DRAWS, 0.05);
    assertEquals(0.0455, (double) beyondTwo / DRAWS, 0.001);
    // Two-sided tail beyond 3.5 standard deviations: 4.65e-4.
    assertEquals(4.65e-4, (double) beyondTail / DRAWS, 0.8e-4);
  }

  @Test
  void streamsOfOneSeedDiffer() {
    assertTrue(new SeededNoise(1, 1).nextLong() != new SeededNoise(1, 2).nextLong());
  }

  @Test
  void arrheniusSeriesIsTheExponential() {
    ArrheniusRate rate = new ArrheniusRate(new Arrhenius(2, 500, 80e3));
    for (double kelvin = 300; kelvin < 1200; kelvin += 0.37) {
      double exact = 2 * StrictMath.exp(80e3 / 8.31446261815324 * (1 / 500.0 - 1 / kelvin));
      assertEquals(exact, rate.at(1 / kelvin), 1e-11 * exact);
    }
  }
}
