package tarnish.shared.oven;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Source: S. Skogestad, J. Process Control 13 (2003) 291. */
class SimcTest {

  @ParameterizedTest
  @CsvSource({"1, 1, 0.5, 1", "1, 10, 5, 8", "30, 600, 10, 240"})
  void firstOrderProcessesAreTunedAsPublished(
      double deadTimeS, double tauS, double gain, double integralS) {
    Simc.Settings settings = Simc.tune(new Simc.Process(1, tauS, 0, deadTimeS));
    assertEquals(gain, settings.gain(), 1e-12);
    assertEquals(integralS, settings.integralS(), 1e-12);
    assertEquals(0, settings.derivativeS());
  }

  /** Example E1: 1/((s + 1)(0.2 s + 1)) by the half rule: theta 0.1, tau1 1.1, Kc 5.5, TI 0.8. */
  @Test
  void theHalfRuleGivesThePublishedExample() {
    Simc.Process reduced = new Simc.Process(1, 1, 0.2, 0).firstOrder();
    assertEquals(0.1, reduced.deadTimeS(), 1e-12);
    assertEquals(1.1, reduced.tau1S(), 1e-12);
    Simc.Settings settings = Simc.tune(reduced);
    assertEquals(5.5, settings.gain(), 1e-12);
    assertEquals(0.8, settings.integralS(), 1e-12);
  }

  @Test
  void theThirdLagIsSharedByTheSecondAndTheDeadTime() {
    Simc.Process reduced = Simc.secondOrder(2, 1, 100, 30, 10, 3);
    assertEquals(100, reduced.tau1S());
    assertEquals(35, reduced.tau2S());
    assertEquals(1 + 5 + 3, reduced.deadTimeS());
  }

  /** K = Kc (1 + TD/TI) and so on: both forms give the same gain at low and at high frequency. */
  @Test
  void theIdealFormIsTheSameController() {
    Simc.Settings series = new Simc.Settings(2, 80, 20);
    Simc.Settings ideal = series.ideal();
    assertEquals(2.5, ideal.gain(), 1e-12);
    assertEquals(series.gain() / series.integralS(), ideal.gain() / ideal.integralS(), 1e-12);
    assertEquals(series.gain() * series.derivativeS(), ideal.gain() * ideal.derivativeS(), 1e-12);
  }

  @Test
  void nonsenseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Simc.Process(Double.NaN, 1, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> new Simc.Process(1, 0, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> Simc.tune(new Simc.Process(1, 1, 0, 0), 0));
  }
}
