package tarnish.shared.oven;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The exact cycle is a = k d (1 - e^(-theta/tau)), P = 2 tau ln(2 e^(theta/tau) - 1). */
class RelayTestTest {

  @ParameterizedTest
  @CsvSource({
    "1, 1, 0.632121, 2.97976, 2.01424",
    "1, 10, 0.095163, 3.81806, 13.37962",
    "30, 600, 0.048771, 117.14232, 26.10672"
  })
  void theCycleOfAnIdealRelayIsExact(
      double deadTimeS, double tauS, double amplitude, double periodS, double ultimateGain) {
    RelayTest.Cycle cycle = RelayTest.firstOrder(1, tauS, deadTimeS, 1);
    assertEquals(amplitude, cycle.amplitude(), 1e-6);
    assertEquals(periodS, cycle.periodS(), 1e-5);
    assertEquals(ultimateGain, RelayTest.ultimateGain(cycle, 1), 2e-5 * ultimateGain);
    Simc.Process back = RelayTest.processOf(cycle, 1, 1);
    assertEquals(tauS, back.tau1S(), 1e-9 * tauS);
    assertEquals(deadTimeS, back.deadTimeS(), 1e-9 * deadTimeS);
  }

  /** The process itself, carried on in small steps, does what the formula says. */
  @Test
  void aSimulatedRelayCyclesAsTheFormulaSays() {
    double stepS = 0.01;
    double[] delayed = new double[3000];
    double y = 0;
    double top = 0;
    int switchings = 0;
    double firstS = 0;
    double lastS = 0;
    boolean up = true;
    for (int i = 0; i < 200_000; i++) {
      boolean now = y < 0 || (y == 0 && up);
      if (now && !up && i > 60_000) {
        firstS = switchings == 0 ? i * stepS : firstS;
        lastS = i * stepS;
        switchings++;
      }
      up = now;
      double acting = delayed[i % delayed.length];
      delayed[i % delayed.length] = up ? 1 : -1;
      y += stepS / 600 * (acting - y);
      top = i > 60_000 ? StrictMath.max(top, y) : 0;
    }
    RelayTest.Cycle cycle = RelayTest.firstOrder(1, 600, 30, 1);
    assertTrue(switchings > 5);
    assertEquals(cycle.periodS(), (lastS - firstS) / (switchings - 1), 0.1);
    assertEquals(cycle.amplitude(), top, 1e-4);
  }

  @Test
  void zieglerAndNicholsTuneFromTheCycle() {
    Simc.Settings pi = RelayTest.zieglerNicholsPi(10, 60);
    assertEquals(4.5, pi.gain(), 1e-12);
    assertEquals(50, pi.integralS(), 1e-12);
    Simc.Settings pid = RelayTest.zieglerNicholsPid(10, 60);
    assertEquals(6, pid.gain(), 1e-12);
    assertEquals(30, pid.integralS(), 1e-12);
    assertEquals(7.5, pid.derivativeS(), 1e-12);
  }

  @Test
  void aSwingBeyondTheRelaysReachIsRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> RelayTest.processOf(new RelayTest.Cycle(2, 10), 1, 1));
  }
}
