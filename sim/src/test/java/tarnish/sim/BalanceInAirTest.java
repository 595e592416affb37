package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.ledger.Buoyancy;

class BalanceInAirTest {
  /** Against the approximate formula of OIML R 111, which is good to 2 parts in 10 000. */
  @Test
  void theAirIsAsDenseAsTheFormulaForWeighingsSays() {
    for (double celsius = 12; celsius < 30; celsius += 3) {
      for (double pressurePa = 92_000; pressurePa < 108_000; pressurePa += 5000) {
        double formula = Buoyancy.airKgPerM3(pressurePa, celsius + 273.15, 0.5).value();
        double air = BalanceInAir.airKgPerM3(pressurePa, celsius + 273.15, 0.5);
        assertEquals(formula, air, 6e-4 * formula, celsius + " °C, " + pressurePa + " Pa");
      }
    }
  }

  /** By hand: 1.2 (1/6310 - 1/8000) = 4.0 parts in 100 000 of copper(II) oxide are missing. */
  @Test
  void whatIsLighterThanTheWeightsShowsTooLittle() {
    assertEquals(5e-3, BalanceInAir.readingKg(5e-3, 5e-3 / 8000, 1.2), 1e-15);
    double oxide = BalanceInAir.readingKg(5e-3, 5e-3 / 6310, 1.2);
    assertEquals(-4.02e-5, oxide / 5e-3 - 1, 0.01e-5);
  }

  @Test
  void theCorrectionOfTheLedgerTakesItOut() {
    double reading = BalanceInAir.readingKg(5e-3, 5e-3 / 6310, 1.18);
    Estimate mass =
        Buoyancy.massKg(Estimate.exact(reading), Estimate.exact(1.18), Estimate.exact(6310));
    assertEquals(5e-3, mass.value(), 1e-12);
  }
}
