package tarnish.shared.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.ExpandedUncertainty.Contribution;

class ExpandedUncertaintyTest {
  // JCGM 100:2008, example H.1, end-gauge calibration, in nm; components from memory.
  private static final List<Contribution> END_GAUGE =
      List.of(
          new Contribution(25, 18),
          new Contribution(9.7, 25.6),
          new Contribution(2.9, 50),
          new Contribution(16.6, 2));

  @Test
  void endGaugeOfThePublishedGuideIsReproduced() {
    ExpandedUncertainty result = ExpandedUncertainty.of(END_GAUGE, 0.99);
    assertEquals(31.671, result.standardUncertainty(), 0.0005);
    assertEquals(16.76, result.degreesOfFreedom(), 0.005);
    assertEquals(2.921, result.coverageFactor(), 0.0005);
    // The guide multiplies rounded figures, 2.92 × 32 nm = 93 nm; unrounded it is 92.5 nm.
    assertEquals(92.5, result.halfWidth(), 0.05);
    assertEquals(93, result.coverageFactor() * Math.rint(result.standardUncertainty()), 0.5);
  }

  @Test
  void secondOrderTermsOfTheEndGaugeWidenItTo34() {
    List<Contribution> all = new java.util.ArrayList<>(END_GAUGE);
    all.add(new Contribution(11.7, Double.POSITIVE_INFINITY));
    all.add(new Contribution(1.7, Double.POSITIVE_INFINITY));
    assertEquals(34, ExpandedUncertainty.of(all, 0.99).standardUncertainty(), 0.5);
  }

  @Test
  void theRoundedUncertaintyWouldGiveTooManyDegreesOfFreedom() {
    double sum = Math.pow(25, 4) / 18 + Math.pow(9.7, 4) / 25.6 + Math.pow(2.9, 4) / 50;
    double wrong = Math.pow(32, 4) / (sum + Math.pow(16.6, 4) / 2);
    assertEquals(17.47, wrong, 0.005);
    assertTrue(ExpandedUncertainty.of(END_GAUGE, 0.99).degreesOfFreedom() < wrong - 0.5);
  }

  @Test
  void knownContributionsHaveInfiniteFreedomAndTheNormalFactor() {
    ExpandedUncertainty result =
        ExpandedUncertainty.of(
            List.of(
                new Contribution(3, Double.POSITIVE_INFINITY),
                new Contribution(4, Double.POSITIVE_INFINITY)),
            0.95);
    assertEquals(5, result.standardUncertainty(), 1e-12);
    assertEquals(Double.POSITIVE_INFINITY, result.degreesOfFreedom());
    assertEquals(1.959964, result.coverageFactor(), 1e-6);
  }

  @Test
  void contributionsThatAreNoUncertaintiesAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Contribution(Double.NaN, 5));
    assertThrows(IllegalArgumentException.class, () -> new Contribution(-1, 5));
    assertThrows(IllegalArgumentException.class, () -> new Contribution(1, Double.NaN));
  }
}
