package tarnish.shared.gas;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/**
 * Numbers computed by hand from the formula of ISO 6358-1 with C = 1e-8 m³/(s Pa), b = 0.3, T1 =
 * T0, air.
 */
class Iso6358Test {
  private static final double AIR = Iso6358.AIR_KG_PER_MOL;
  private static final double T0 = Iso6358.REFERENCE_TEMPERATURE_K;
  private final Iso6358 valve = new Iso6358(1e-8, 0.3);

  @Test
  void airFlowsAsTheFormulaSays() {
    assertEquals(8.29500e-3, valve.kgPerS(7e5, T0, 1e5, AIR), 1e-8);
    assertEquals(5.02183e-3, valve.kgPerS(7e5, T0, 6e5, AIR), 1e-8);
    assertEquals(2.27121e-3, valve.kgPerS(2e5, T0, 1e5, AIR), 1e-8);
    assertEquals(9.21014e-4, valve.kgPerS(1.2e5, T0, 1e5, AIR), 1e-9);
  }

  @Test
  void flowFunctionFollowsTheEllipse() {
    assertEquals(1, Iso6358.flowFunction(1.0 / 7, 0.3));
    assertEquals(0.605404, Iso6358.flowFunction(6.0 / 7, 0.3), 1e-6);
    assertEquals(0.958315, Iso6358.flowFunction(0.5, 0.3), 1e-6);
    assertEquals(0.647689, Iso6358.flowFunction(1 / 1.2, 0.3), 1e-6);
  }

  @Test
  void massFlowGrowsWithTheRootOfMolarMassAndFallsWithTheRootOfTemperature() {
    double air = valve.kgPerS(7e5, T0, 1e5, AIR);
    assertEquals(2 * air, valve.kgPerS(7e5, T0, 1e5, 4 * AIR), 1e-12);
    assertEquals(air / 2, valve.kgPerS(7e5, 4 * T0, 1e5, AIR), 1e-12);
    assertEquals(air / AIR, valve.molPerS(7e5, T0, 1e5, AIR), 1e-9);
  }

  @Test
  void nothingFlowsUphillAndTheLastHalfPercentIsStraight() {
    assertEquals(0, valve.molPerS(1e5, T0, 1e5, AIR));
    assertEquals(0, valve.molPerS(1e5, T0, 2e5, AIR));
    double at = Iso6358.flowFunction(Iso6358.LINEAR_FROM, 0.3);
    assertEquals(at / 5, Iso6358.flowFunction(0.999, 0.3), 1e-12);
    assertTrue(Iso6358.flowFunction(0.9949999, 0.3) > at);
    assertEquals(at, Iso6358.flowFunction(0.9949999, 0.3), 1e-5);
  }

  @Test
  void impossibleValvesAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Iso6358(Double.NaN, 0.3));
    assertThrows(IllegalArgumentException.class, () -> new Iso6358(-1e-9, 0.3));
    assertThrows(IllegalArgumentException.class, () -> new Iso6358(1e-9, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> new Iso6358(1e-9, 1));
    assertThrows(IllegalArgumentException.class, () -> valve.molPerS(1e5, Double.NaN, 1, AIR));
    assertThrows(IllegalArgumentException.class, () -> valve.molPerS(1e5, T0, 1, 0));
  }
}
