package tarnish.shared.gas;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;

class ExpansionTest {
  private static final double HOT = 250e-6;
  private static final double COLD = 80e-6;
  private static final double BULB = 100e-6;

  private static Estimate exact(double value) {
    return Estimate.exact(value);
  }

  /** The amount of gas is what it was: p after from the sum of amounts. */
  private static double afterPa(double bulbPa, double beforePa, double hotK, double roomK) {
    double vessel = HOT / hotK + COLD / roomK;
    double bulb = BULB / roomK;
    return (bulbPa * bulb + beforePa * vessel) / (bulb + vessel);
  }

  @Test
  void theVolumeComesBackColdAndHot() {
    for (double hotK : new double[] {295, 573}) {
      double after = afterPa(100_000, 500, hotK, 295);
      Estimate hot =
          Expansion.hotM3(
              exact(BULB),
              exact(COLD),
              exact(1e5),
              exact(500),
              exact(after),
              exact(hotK),
              exact(295));
      assertEquals(HOT, hot.value(), 1e-12);
    }
  }

  @Test
  void aGainOfTheGaugeCancels() {
    double after = afterPa(100_000, 500, 295, 295);
    Estimate hot =
        Expansion.hotM3(
            exact(BULB),
            exact(COLD),
            exact(1.02e5),
            exact(510),
            exact(1.02 * after),
            exact(295),
            exact(295));
    assertEquals(HOT, hot.value(), 1e-12);
  }

  /** Alone, 1 % of the bulb is 1 % of everything behind it: (V0 (p1-p2)/(p2-p0)) = 330 mL. */
  @Test
  void theBulbsUncertaintyGoesIntoAllOfTheVessel() {
    double after = afterPa(100_000, 0, 295, 295);
    Estimate hot =
        Expansion.hotM3(
            new Estimate(BULB, 0.01 * BULB),
            exact(COLD),
            exact(1e5),
            exact(0),
            exact(after),
            exact(295),
            exact(295));
    assertEquals(3.3e-6, hot.standardUncertainty(), 1e-9);
  }

  @Test
  void pressuresOutOfOrderAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () ->
            Expansion.hotM3(
                exact(BULB),
                exact(COLD),
                exact(1e5),
                exact(500),
                exact(400),
                exact(295),
                exact(295)));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            Expansion.hotM3(
                exact(BULB),
                exact(1),
                exact(1e5),
                exact(500),
                exact(25e3),
                exact(295),
                exact(295)));
  }
}
