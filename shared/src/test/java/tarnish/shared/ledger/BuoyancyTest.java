package tarnish.shared.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;

class BuoyancyTest {
  private static final Estimate AIR = new Estimate(1.2, 0.01);

  @Test
  void airAtRoomConditionsWeighsAboutOneAndAFifthKilogramPerCubicMetre() {
    // By hand: (0.34848 × 1013.25 - 0.009 × 50 × exp(1.22)) / 293.15 = (353.097 - 1.524) / 293.15.
    assertEquals(1.19929, Buoyancy.airKgPerM3(101325, 293.15, 0.5).value(), 1e-5);
    assertEquals(1.20449, Buoyancy.airKgPerM3(101325, 293.15, 0).value(), 1e-5);
  }

  @Test
  void weightsOfTheConventionNeedNoCorrection() {
    assertEquals(
        0.004, Buoyancy.massKg(Estimate.exact(0.004), AIR, Estimate.exact(8000)).value(), 1e-18);
  }

  @Test
  void copperIsLighterThanItReadsAndItsOxideHeavier() {
    // (1 - 1.2/8000) / (1 - 1.2/8960) = 0.99985 / 0.999866071 = 1 - 1.607E-5.
    double copper = Buoyancy.massKg(Estimate.exact(0.004), AIR, Estimate.exact(8960)).value();
    assertEquals(-1.607e-5, copper / 0.004 - 1, 1e-8);
    // (1 - 1.2/8000) / (1 - 1.2/6310) = 0.99985 / 0.999809826 = 1 + 4.018E-5.
    Estimate oxide = Buoyancy.massKg(new Estimate(0.005, 2e-6), AIR, new Estimate(6310, 100));
    assertEquals(4.018e-5, oxide.value() / 0.005 - 1, 1e-8);
    // Density known to 100: 1.2/6310² × 100 = 3.0E-6; air to 0.01: 3.3E-7. Both below the balance.
    assertEquals(2.0e-6, oxide.standardUncertainty(), 0.01e-6);
  }

  @Test
  void conditionsOutsideTheFormulaAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> Buoyancy.airKgPerM3(80_000, 293.15, 0.5));
    assertThrows(IllegalArgumentException.class, () -> Buoyancy.airKgPerM3(101325, 20, 0.5));
    assertThrows(
        IllegalArgumentException.class, () -> Buoyancy.airKgPerM3(101325, 293.15, Double.NaN));
    assertThrows(
        IllegalArgumentException.class,
        () -> Buoyancy.massKg(Estimate.exact(1), AIR, Estimate.exact(1)));
  }
}
