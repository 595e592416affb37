package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A ramp of 0.05 K/s: a sample that follows with a lag of 600 s is 30 K behind its oven. */
class SampleLagTest {
  private static final double RATE_K_PER_S = 0.05;
  private static final long WINDOW_MILLIS = 120_000;

  private SampleLag lag = SampleLag.UNKNOWN;
  private double ovenK = 400;
  private long millis;

  private void windows(int count, double behindK, double reactionK) {
    for (int i = 0; i < count; i++) {
      lag = lag.step(ovenK - behindK, ovenK, reactionK, millis);
      millis += WINDOW_MILLIS;
      ovenK += RATE_K_PER_S * WINDOW_MILLIS / 1000.0;
    }
  }

  @Test
  void aLagIsLearnedInSteadyHeating() {
    windows(6, 30, 0);
    assertEquals(600, lag.usualS(), 1e-9);
    assertEquals(2, lag.learned());
    assertFalse(lag.loose());
  }

  @Test
  void whatGoesSuddenlyWithoutUptakeHasSlipped() {
    windows(6, 30, 0);
    windows(5, 5, 0);
    assertTrue(lag.loose());
  }

  @Test
  void whatGoesWithHeatThatTheGasTellsOfHasNotSlippedAndNeitherHasItWhenThatEnds() {
    windows(6, 30, 0);
    windows(5, 5, 20);
    assertFalse(lag.loose());
    assertEquals(600, lag.usualS(), 1e-9, "a sample that reacts teaches nothing");
    windows(5, 30, 0);
    assertFalse(lag.loose());
  }

  @Test
  void uptakeTooSmallToExplainItDoesNotHideASlip() {
    windows(6, 30, 0);
    windows(5, 5, 4);
    assertTrue(lag.loose(), "30 K behind would be 9 K with all of the heat");
  }

  @Test
  void noHeatMakesASampleLagMore() {
    windows(6, 30, 0);
    windows(5, 90, 20);
    assertTrue(lag.loose());
  }

  @Test
  void aReactionFromTheBeginningTeachesNothingSoItsEndIsNoSlip() {
    windows(8, 5, 20);
    assertEquals(0, lag.learned());
    windows(8, 30, 0);
    assertFalse(lag.loose());
    assertEquals(600, lag.usualS(), 1e-9);
  }

  @Test
  void heatAtEitherEndOfAWindowCounts() {
    windows(6, 30, 0);
    for (int i = 0; i < 6; i++) {
      windows(1, 5, i % 2 == 0 ? 20 : 0);
    }
    assertFalse(lag.loose());
  }
}
