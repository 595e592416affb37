package tarnish.shared.gas;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SecondVirialTest {
  private static final double CM3 = 1e-6;

  // Computed from the Kaye and Laby coefficients; CRC Handbook: oxygen -15.6 and +11.6 (from
  // memory), argon -16 at 300 K.
  @Test
  void valuesAgreeWithTheTablesWithinAboutOneCubicCentimetre() {
    assertEquals(-15.35 * CM3, SecondVirial.OXYGEN.m3PerMol(300), 0.005 * CM3);
    assertEquals(10.7 * CM3, SecondVirial.OXYGEN.m3PerMol(560), 0.05 * CM3);
    assertEquals(-15.2 * CM3, SecondVirial.ARGON.m3PerMol(300), 0.05 * CM3);
    assertEquals(-16 * CM3, SecondVirial.ARGON.m3PerMol(300), 1 * CM3);
    // CRC Handbook, argon at 500 K and 1000 K: 7 and 22.
    assertEquals(7 * CM3, SecondVirial.ARGON.m3PerMol(500), 1.1 * CM3);
    assertEquals(22 * CM3, SecondVirial.ARGON.m3PerMol(1000), 1.1 * CM3);
    // CRC Handbook, nitrogen at 300 K: -4 (from memory).
    assertEquals(-4 * CM3, SecondVirial.NITROGEN.m3PerMol(300), 1.5 * CM3);
  }

  @Test
  void idealGasErrorOfOxygenAtOneBarIsBelowATenthOfAPerCent() {
    assertEquals(-0.062e-2, SecondVirial.OXYGEN.idealGasError(1e5, 300), 0.0005e-2);
    assertEquals(0.023e-2, SecondVirial.OXYGEN.idealGasError(1e5, 560), 0.0005e-2);
  }

  @Test
  void correctedAmountIsLargerWhereMoleculesAttract() {
    double ideal = 1e5 * 330e-6 / (TwoZoneVolume.GAS_CONSTANT * 300);
    double corrected = SecondVirial.OXYGEN.amountMol(1e5, 330e-6, 300);
    assertEquals(1.00062, corrected / ideal, 1e-5);
    assertEquals(ideal, SecondVirial.OXYGEN.amountMol(1e-3, 330e-6, 300) * 1e8, 1e-9);
  }

  @Test
  void statementSaysTwoDigitsAndWhetherItIsExtrapolated() {
    assertEquals(
        "taking the gas as ideal shifts an amount by -0.062 % at this pressure and temperature",
        SecondVirial.OXYGEN.statement(1e5, 300));
    assertTrue(SecondVirial.OXYGEN.statement(1e5, 560).endsWith("(extrapolated)"));
    assertFalse(SecondVirial.OXYGEN.covers(Double.NaN));
  }

  @Test
  void whatIsNoTemperatureOrPressureIsRefused() {
    for (double bad : new double[] {0, -1, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> SecondVirial.OXYGEN.m3PerMol(bad));
    }
    assertThrows(
        IllegalArgumentException.class, () -> SecondVirial.OXYGEN.idealGasError(Double.NaN, 300));
  }
}
