package tarnish.shared.oven;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class OvenModelTest {
  static final OvenModel SOME =
      new OvenModel(0.7, 25, 8, 1700, 0.1, 130, 0.7, 60, 0.65, 8000, 0.07);

  private static OvenModel linear(double lossS) {
    return new OvenModel(0.5, 1e-3, 0, lossS, 0, 100, 0, 50, 0, 1e12, 0);
  }

  @Test
  void theOvenAloneRisesAsOneFirstOrderLag() {
    OvenSimulation simulation = new OvenSimulation(linear(1000), 295);
    for (int i = 0; i < 1000; i++) {
      simulation.step(0.6, 295, 1);
    }
    double expected = 295 + 0.5 * 0.6 * 1000 * (1 - StrictMath.exp(-1));
    assertEquals(expected, simulation.ovenK(), 1e-3);
  }

  /** On a steady ramp of rate r a chain of lags is late by r (t1 + t2). */
  @Test
  void theSampleIsLateByBothLagsOnARamp() {
    OvenSimulation simulation = new OvenSimulation(linear(1e12), 295);
    for (int i = 0; i < 3000; i++) {
      simulation.step(0.1, 295, 1);
    }
    assertEquals(0.05 * 100, simulation.ovenK() - simulation.vesselK(), 1e-6);
    assertEquals(0.05 * 150, simulation.ovenK() - simulation.sampleK(), 1e-6);
  }

  @Test
  void theHoldingDutyHolds() {
    double duty = SOME.holdingDuty(620, 295);
    OvenSimulation simulation = new OvenSimulation(SOME, 295);
    for (int i = 0; i < 60_000; i++) {
      simulation.step(duty, 295, 1);
    }
    assertEquals(620, simulation.ovenK(), 0.5);
  }

  @Test
  void radiationMakesTheLagsShorterWhenHot() {
    assertEquals(130, SOME.vesselSecondsAt(600), 1e-9);
    assertEquals(130 / (0.3 + 0.7 * 0.125), SOME.vesselSecondsAt(300), 1e-9);
    assertEquals(60 / (0.35 + 0.65 * 3.375), SOME.sampleSecondsAt(900), 1e-9);
  }

  @Test
  void whatIsNoModelIsRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new OvenModel(Double.NaN, 25, 8, 1700, 0, 130, 0, 60, 0, 8000, 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> new OvenModel(0.7, 25, -1, 1700, 0, 130, 0, 60, 0, 8000, 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> new OvenModel(0.7, 25, 8, 1700, 1.1, 130, 0, 60, 0, 8000, 0));
  }
}
