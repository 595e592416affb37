package tarnish.shared.gas;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Against CODATA entropies and NIST-JANAF heat capacities. */
class ShomateTest {
  @Test
  void standardValuesAreThoseOfTheTables() {
    assertEquals(29.38, Shomate.OXYGEN.heatCapacity(298.15), 0.005);
    assertEquals(205.152, Shomate.OXYGEN.entropy(298.15), 0.006);
    assertEquals(29.12, Shomate.NITROGEN.heatCapacity(298.15), 0.006);
    assertEquals(191.609, Shomate.NITROGEN.entropy(298.15), 0.002);
    assertEquals(20.786, Shomate.ARGON.heatCapacity(298.15), 0.001);
    assertEquals(154.846, Shomate.ARGON.entropy(298.15), 0.002);
    for (Shomate gas : Shomate.values()) {
      assertEquals(0, gas.enthalpyAbove298(298.15), 2, gas.name());
    }
  }

  @Test
  void hotOxygenAgreesWithTheComputedValues() {
    assertEquals(32.107, Shomate.OXYGEN.heatCapacity(600), 0.001);
    assertEquals(9243, Shomate.OXYGEN.enthalpyAbove298(600), 1);
    assertEquals(34.864, Shomate.OXYGEN.heatCapacity(1000), 0.001);
  }

  @Test
  void piecesMeetAtTheirJoint() {
    assertEquals(Shomate.OXYGEN.heatCapacity(700), Shomate.OXYGEN.heatCapacity(700.001), 0.002);
    assertEquals(Shomate.NITROGEN.heatCapacity(500), Shomate.NITROGEN.heatCapacity(500.001), 0.002);
  }

  @Test
  void enthalpyIsTheIntegralOfTheHeatCapacity() {
    double sum = 0;
    for (double t = 300; t < 600; t += 0.5) {
      sum += 0.5 * Shomate.OXYGEN.heatCapacity(t + 0.25);
    }
    assertEquals(
        Shomate.OXYGEN.enthalpyAbove298(600) - Shomate.OXYGEN.enthalpyAbove298(300), sum, 0.1);
  }

  @Test
  void temperaturesBeyondTheCoefficientsAreRefused() {
    for (double bad : new double[] {99, 2001, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> Shomate.OXYGEN.heatCapacity(bad));
    }
    assertThrows(IllegalArgumentException.class, () -> Shomate.ARGON.entropy(297));
  }
}
