package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;

class GasMixtureTest {
  private static final double MOL = 10e-3;
  private static final GasMixture PURE_INERT = new GasMixture(MOL, 0, 0);

  @Test
  void aVesselThatNobodyKnowsHoldsAnything() {
    Estimate oxygen = GasMixture.unknown(MOL).oxygenFraction(MOL, 0, 0);
    assertEquals(0.1, oxygen.value(), 1e-12);
    assertEquals(0.1, oxygen.standardUncertainty(), 1e-12);
  }

  @Test
  void aSourceBringsItsShareAndItsDoubt() {
    GasMixture fed = new GasMixture(0, 0, 0).fed(MOL, 0.93, true);
    Estimate oxygen = fed.oxygenFraction(MOL, 0.01, 0);
    assertEquals(0.93, oxygen.value(), 1e-12);
    assertEquals(0.01, oxygen.standardUncertainty(), 1e-12);
  }

  /** A concentrator's 7 % stays behind while oxygen is used up: n_inert = 0.07/0.93 per mol O2. */
  @Test
  void inertGasOfTheSourceBuildsUpWhileOxygenGoes() {
    GasMixture gas = new GasMixture(0, 0, 0).fed(MOL, 0.93, true);
    for (int i = 0; i < 50; i++) {
      gas = gas.fed(1e-3, 0.93, true); // as much oxygen as the solid took, and inert with it
    }
    assertEquals(0.07 * (MOL + 50e-3), gas.inertMol(), 1e-12);
  }

  /** Pumped to p and filled again, c cycles: what is left of the first gas is (p/P)^c. */
  @Test
  void pumpingAndFillingDilutesByTheRatioOfPressures() {
    GasMixture gas = PURE_INERT;
    for (int cycle = 0; cycle < 3; cycle++) {
      gas = gas.thinned(MOL, MOL / 20, 0).fed(MOL * 19 / 20, 1, true);
    }
    assertEquals(MOL / 8000, gas.inertMol(), 1e-15);
    assertEquals(1 - 1 / 8000.0, gas.oxygenFraction(MOL, 0, 0).value(), 1e-9);
  }

  /** A gauge whose zero is high shows its noise for as long as the pump runs. */
  @Test
  void theNoiseOfAGaugeAtTheEndOfAPumpDownThinsNothing() {
    GasMixture gas = PURE_INERT;
    double from = MOL;
    SplittableRandom noise = new SplittableRandom(11);
    for (int tick = 0; tick < 4800; tick++) {
      double to = MOL / 100 * (1 + noise.nextDouble(-0.2, 0.2));
      gas = gas.thinned(from, to, MOL / 1000);
      from = to;
    }
    assertEquals(0.8 * MOL / 100, gas.inertMol(), 0.001 * MOL / 100);
    GasMixture again = gas.fed(MOL, 0, false).thinned(from + MOL, from + MOL / 2, 0);
    assertTrue(again.inertMol() < 0.52 * MOL, "what came in is pumped as before");
  }

  @Test
  void belowWhatTheGaugeTellsNothingIsThinned() {
    GasMixture gas = PURE_INERT.thinned(1e-6, 1e-9, 1e-5);
    assertEquals(MOL, gas.inertMol());
  }

  /** A sweep at constant pressure leaves exp(-n/N) of what was there. */
  @Test
  void aSweepWashesOutByTheExponentialOfItsVolumes() {
    GasMixture oxygen = new GasMixture(0, MOL, 0);
    GasMixture swept = oxygen;
    for (int i = 0; i < 300; i++) {
      swept = swept.swept(MOL, MOL, MOL / 100, 0);
    }
    double left = 1 - swept.inertMol() / MOL;
    assertEquals(StrictMath.exp(-3), left, 1e-3);
    assertTrue(swept.variance() > 0, "the sweep's flow is not known exactly");
  }

  @Test
  void errorsOfOneLeakAddUpAndDoNotAverageOut() {
    GasMixture gas = new GasMixture(0, 0, 0);
    for (int i = 0; i < 100; i++) {
      gas = gas.leaked(1e-6, 1e-7);
    }
    double share = 1 - GasMixture.AIR_OXYGEN;
    assertEquals(share * 100e-6, gas.inertMol(), 1e-12);
    assertEquals(share * 100e-7, StrictMath.sqrt(gas.variance()), 1e-12);
  }

  @Test
  void anEmptyVesselHasNoShare() {
    Estimate none = PURE_INERT.oxygenFraction(0, 0, 0);
    assertEquals(1, none.standardUncertainty());
  }

  @Test
  void pumpingThinsEverythingAndItsDoubtInProportion() {
    GasMixture half = new GasMixture(2e-3, 6e-3, 4e-12).thinned(MOL, MOL / 2, 0);
    assertEquals(1e-3, half.inertMol(), 1e-15);
    assertEquals(3e-3, half.sourceMol(), 1e-15);
    assertEquals(1e-12, half.variance(), 1e-24);
    GasMixture more = new GasMixture(2e-3, 6e-3, 4e-12);
    assertEquals(more, more.thinned(MOL, 2 * MOL, 0), "nothing went out");
  }

  /** 6 of 8 mmol washed through while the gas fell from 10 to 8: exp(-6/8) stays. */
  @Test
  void aSweepBesidesAChangeOfPressureWashesOutWhatLeft() {
    GasMixture swept = new GasMixture(4e-3, 5e-3, 9e-12).swept(10e-3, 8e-3, 4e-3, 0.02);
    double kept = StrictMath.exp(-0.75);
    assertEquals(4e-3 * kept + 0.98 * (8e-3 - 10e-3 * kept), swept.inertMol(), 1e-12);
    assertEquals(5e-3 * kept, swept.sourceMol(), 1e-12);
    // A tenth of the flow, as far as it washed out what was not inert.
    double u = 0.1 * 6e-3 * kept * 0.6;
    assertEquals(9e-12 * kept * kept + u * u, swept.variance(), 1e-16);
  }

  @Test
  void aSweepThatOnlyFillsWashesNothingOut() {
    GasMixture filled = new GasMixture(4e-3, 5e-3, 0).swept(10e-3, 15e-3, 4e-3, 0);
    assertEquals(4e-3 + 5e-3, filled.inertMol(), 1e-12);
    assertEquals(5e-3, filled.sourceMol(), 1e-12);
    assertEquals(0, filled.variance());
  }

  /** The inert share, its purity, its spread and the amount of gas are each known to something. */
  @Test
  void theOxygensShareIsAsUnsureAsAllThatItIsMadeOf() {
    Estimate oxygen = new GasMixture(2e-3, 6e-3, 1e-10).oxygenFraction(MOL, 0.01, 4e-4);
    assertEquals(0.8, oxygen.value(), 1e-12);
    double purity = 0.01 * 0.6;
    double spread = 1e-3;
    double gas = 0.2 * 4e-4 / MOL;
    assertEquals(
        Math.sqrt(purity * purity + spread * spread + gas * gas),
        oxygen.standardUncertainty(),
        1e-9);
    assertEquals(0, new GasMixture(2 * MOL, 0, 0).oxygenFraction(MOL, 0, 0).value());
    assertEquals(1, new GasMixture(0, 0, 1).oxygenFraction(MOL, 0, 0).standardUncertainty());
  }
}
