package tarnish.shared.gas;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.RateOfRise.Signature;

/** Numbers by hand from the formulas. */
class PurgeAndLeakTest {
  @Test
  void threeCyclesFromFiftyMillibarLeaveAnEightThousandth() {
    PressureSwing swing = new PressureSwing(50e2, 1000e2);
    assertEquals(1.25e-4, swing.residual(1, 0, 3), 1e-12);
    assertEquals(2.619e-5, swing.residual(0.2095, 0, 3), 1e-8);
    assertEquals(1e-6, new PressureSwing(10e2, 1000e2).residual(1, 0, 3), 1e-15);
    assertEquals(0.296296, new PressureSwing(1e5, 1.5e5).residual(1, 0, 3), 1e-6);
  }

  @Test
  void halvingTakesTenCyclesToAThousandth() {
    PressureSwing swing = new PressureSwing(0.5e5, 1e5);
    assertEquals(10, swing.cyclesFor(1, 0, 1e-3));
    assertTrue(swing.residual(1, 0, 9) > 1e-3);
    assertEquals(0, swing.cyclesFor(1e-4, 0, 1e-3));
  }

  @Test
  void noPurgeGetsBelowItsOwnFillGas() {
    PressureSwing swing = new PressureSwing(5e2, 900e2);
    assertEquals(5e-6, swing.residual(0.20946, 5e-6, 20), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> swing.cyclesFor(0.2, 5e-6, 5e-6));
    assertThrows(IllegalArgumentException.class, () -> new PressureSwing(0, 1e5));
    assertThrows(IllegalArgumentException.class, () -> new PressureSwing(Double.NaN, 1e5));
    assertThrows(IllegalArgumentException.class, () -> swing.residual(Double.NaN, 0, 1));
  }

  private static final int POINTS = 61;

  private static RateOfRise rise(double leakPaPerS, double gassingPa, double driftK, double noise) {
    SplittableRandom random = new SplittableRandom(8);
    double[] times = new double[POINTS];
    double[] pressures = new double[POINTS];
    double[] temperatures = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      times[i] = 10.0 * i;
      double share = i / (POINTS - 1.0);
      temperatures[i] = 293.15 + driftK * (share - 0.5);
      double atMean = 1000 + leakPaPerS * times[i] + gassingPa * (1 - Math.exp(-times[i] / 120));
      pressures[i] = atMean * temperatures[i] / 293.15 + noise * random.nextGaussian();
    }
    return RateOfRise.of(times, pressures, temperatures);
  }

  @Test
  void tenLitresRisingATenthOfAMillibarAMinuteLeakAsMuchAsTheFormulaSays() {
    double[] times = {0, 12, 24, 36, 48, 60};
    double[] pressures = {0, 2, 4, 6, 8, 10};
    double[] temperatures = {293.15, 293.15, 293.15, 293.15, 293.15, 293.15};
    RateOfRise rise = RateOfRise.of(times, pressures, temperatures);
    assertEquals(1.6667e-3, rise.throughput(Estimate.exact(0.01)).value(), 5e-8);
    assertEquals(6.838e-7, rise.molPerS(Estimate.exact(0.01)).value(), 5e-11);
    // At 0 °C and 1 atm, in cm³/min.
    double flow = rise.molPerS(Estimate.exact(0.01)).value() * 60;
    assertEquals(0.9196, flow * TwoZoneVolume.GAS_CONSTANT * 273.15 / 101325 * 1e6, 5e-5);
    assertEquals(
        0.05 * 1.6667e-3, rise.throughput(new Estimate(0.01, 0.0005)).standardUncertainty(), 1e-8);
  }

  @Test
  void leakOutgassingAndTightnessAreToldApart() {
    assertEquals(Signature.STRAIGHT, rise(0.1, 0, 0, 0.5).signature());
    assertEquals(Signature.LEVELLING, rise(0, 50, 0, 0.5).signature());
    assertEquals(Signature.LEVELLING, rise(0.02, 50, 0, 0.5).signature());
    assertEquals(Signature.NONE, rise(0, 0, 0, 0.5).signature());
  }

  @Test
  void warmingIsNotTakenForALeak() {
    // 2 K of drift raise the pressure by 7 Pa, a hundred times what the noise lets see.
    assertEquals(Signature.NONE, rise(0, 0, 2, 0.5).signature());
    RateOfRise rise = rise(0.05, 0, 2, 0.1);
    assertEquals(0.05, rise.whole().value(), 3 * rise.whole().standardUncertainty());
  }

  @Test
  void tooFewReadingsAreRefused() {
    double[] three = {1, 2, 3};
    assertThrows(IllegalArgumentException.class, () -> RateOfRise.of(three, three, three));
    double[] same = {1, 1, 1, 1, 1, 1};
    assertThrows(IllegalArgumentException.class, () -> RateOfRise.of(same, same, same));
  }

  @Test
  void sevenPerCentInertLeaveAThirteenthOfAMoleForEachMoleTaken() {
    assertEquals(0.0753, InertBuildUp.perMolOxygen(0.93), 5e-5);
    // 1 mol of O₂ taken from 93 % gas; what is left of 1.2 mol admitted is 0.2 mol, 0.084 inert.
    double inert = InertBuildUp.inertMol(0, 1.2, 0.93, 0);
    assertEquals(0.42, InertBuildUp.fraction(inert, 0.2), 1e-12);
    assertEquals(0.084, inert, 1e-12);
    assertEquals(0.79054, InertBuildUp.inertMol(0, 0, 0.93, 1), 1e-12);
    assertEquals(1, InertBuildUp.fraction(0.3, 0.2));
    for (double bad : new double[] {0, 1.1, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> InertBuildUp.perMolOxygen(bad));
    }
  }
}
