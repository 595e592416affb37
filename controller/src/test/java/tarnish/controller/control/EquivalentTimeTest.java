package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** f(T) = exp(-Ea/R (1/T - 1/Tref)), S. Arrhenius, Z. phys. Chem. 4 (1889) 226 (from memory). */
class EquivalentTimeTest {
  private static final long SEED = 77;
  private static final double GAS_CONSTANT = 8.31446261815324;

  @Test
  void theKeptFactorsAgreeWithTheLawAtAnyTemperatureAndEnergy() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 2000; i++) {
      double energy = random.nextDouble(1e3, 1e6);
      double referenceK = random.nextDouble(280, 1400);
      EquivalentTime time = new EquivalentTime(energy, referenceK);
      for (int j = 0; j < 20; j++) {
        double atK = random.nextDouble(150, 1700);
        double law = StrictMath.exp(-energy / GAS_CONSTANT * (1 / atK - 1 / referenceK));
        assertEquals(law, time.factor(atK), 2e-8 * law, "seed " + SEED + " at " + atK);
      }
    }
  }

  @Test
  void aSecondAtTheReferenceIsWorthASecond() {
    assertEquals(1, new EquivalentTime(80e3, 563.15).factor(563.15), 1e-12);
  }
}
