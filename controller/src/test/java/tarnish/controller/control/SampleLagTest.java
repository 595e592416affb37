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
    windows(5, 30, 0);
    assertFalse(lag.loose());
    assertEquals(600, lag.usualS(), 60);
    assertEquals(0, lag.usualHeatS(), 60);
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
  void aReactionFromTheBeginningIsLearnedWithItsHeatSoItsEndIsNoSlip() {
    windows(8, 5, 20);
    assertEquals(100, lag.usualS(), 1e-9);
    assertEquals(400, lag.usualHeatS(), 1e-9);
    windows(8, 30, 0);
    assertFalse(lag.loose());
  }

  @Test
  void aSensorThatSlipsWhileTheReactionGoesOnAsBeforeIsFound() {
    windows(6, 25, 5);
    windows(5, 4, 5);
    assertTrue(lag.loose(), "9 K with all of the heat, where it was 30 K with all of it");
  }

  @Test
  void heatAtEitherEndOfAWindowCounts() {
    windows(6, 30, 0);
    for (int i = 0; i < 6; i++) {
      windows(1, 5, i % 2 == 0 ? 20 : 0);
    }
    assertFalse(lag.loose());
  }

  /** One window: the oven goes up by {@code movedK}, the sample is then so far behind it. */
  private void window(double movedK, double behindK, double reactionK) {
    millis += WINDOW_MILLIS;
    ovenK += movedK;
    lag = lag.step(ovenK - behindK, ovenK, reactionK, millis);
  }

  /** A lag of 600 s as it was learned, in ramps of 0.05 K/s, the last window of them just ended. */
  private void known() {
    ovenK = 500;
    millis = 1_000_000;
    lag = new SampleLag(millis, ovenK - 30, ovenK, 0, true, 600, 0, 2, ovenK - 30, 0);
  }

  @Test
  void aLagCountsAsKnownFromTheThirdWindowOn() {
    windows(1, 30, 0);
    assertEquals(0, lag.fromMillis());
    windows(1, 30, 0);
    assertEquals(0, lag.learned(), "the first window has none before it that could be steady");
    windows(1, 30, 0);
    assertEquals(1, lag.learned());
    assertEquals(600, lag.usualS(), 1e-9);
    windows(1, 30, 0);
    assertEquals(2, lag.learned());
    windows(1, 30, 0);
    assertEquals(2, lag.learned());
  }

  @Test
  void aWindowLastsTwoMinutes() {
    known();
    SampleLag early = lag.step(476, 506, 0, millis + WINDOW_MILLIS - 1);
    assertEquals(millis, early.fromMillis());
    SampleLag ended = lag.step(476, 506, 0, millis + WINDOW_MILLIS);
    assertEquals(millis + WINDOW_MILLIS, ended.fromMillis());
    assertEquals(476, ended.sampleK());
    assertEquals(506, ended.ovenK());
  }

  @Test
  void whereOneWindowIsNotSteadyNothingIsLearnedFromItNorFromTheNext() {
    known();
    window(2, 30, 0);
    assertTrue(lag.steadyBefore(), "two kelvin are enough");
    known();
    window(1.75, 30, 0);
    assertFalse(lag.steadyBefore(), "an oven that hardly moves tells no lag");
    double usualS = lag.usualS();
    window(6, 29, 0);
    assertEquals(usualS, lag.usualS());
    assertTrue(lag.steadyBefore());
  }

  @Test
  void aWindowIsSteadyWhileTheSampleMovesWithinAQuarterAsMuchAsTheOven() {
    for (double moreK : new double[] {-2, 2}) {
      known();
      window(8, 30 + moreK, 0);
      assertTrue(lag.steadyBefore());
      known();
      window(8, 30 + 1.0625 * moreK, 0);
      assertFalse(lag.steadyBefore());
    }
  }

  /** (30 + 29) / 2 K behind at 7 K in 120 s are 506 s; half of what is new is believed. */
  @Test
  void theLagIsThatOfTheMiddleOfTheWindowAndHalfOfItsChangeIsLearned() {
    known();
    window(6, 29, 0);
    assertEquals(600 + 0.5 * (29.5 / (7 / 120.0) - 600), lag.usualS(), 1e-9);
    assertEquals(477, lag.learnedAtK(), 1e-9);
    assertEquals(2, lag.learned());
  }

  @Test
  void aSampleThatIsNotBehindItsOvenTeachesNothingAndIsNotStrange() {
    for (double behindK : new double[] {0, -20}) {
      ovenK = 500;
      millis = 0;
      lag = new SampleLag(millis, ovenK - behindK, ovenK, 0, true, 600, 0, 2, ovenK, 0);
      window(6, behindK, 0);
      assertEquals(0, lag.strange());
      assertEquals(600, lag.usualS());
    }
  }

  @Test
  void aSlipIsBelievedAtItsSecondWindow() {
    known();
    lag = new SampleLag(millis, ovenK - 5, ovenK, 0, true, 600, 0, 2, ovenK - 30, 0);
    window(6, 5, 0);
    assertEquals(1, lag.strange());
    assertFalse(lag.loose());
    window(6, 5, 0);
    assertTrue(lag.loose());
    window(6, 5, 0);
    assertEquals(2, lag.strange());
    window(6, 30, 0);
    window(6, 30, 0);
    assertTrue(lag.loose(), "one steady window says nothing");
    window(6, 30, 0);
    assertFalse(lag.loose(), "a sensor that was put back follows as before");
  }

  @Test
  void aLagOfOneWindowIsNotKnownWellEnoughToCallAnotherStrange() {
    for (int learned = 1; learned <= 2; learned++) {
      ovenK = 500;
      lag = new SampleLag(0, ovenK - 5, ovenK, 0, true, 600, 0, learned, ovenK - 30, 0);
      millis = 0;
      window(6, 5, 0);
      assertEquals(learned == 2 ? 1 : 0, lag.strange());
    }
  }

  /** At 0.0625 K/s a usual lag of 320 s is 20 K: two and a half times that are 50 K, or 8 K. */
  @Test
  void aLagIsStrangeFromMoreThanTwoAndAHalfTimesLongerOrShorterOn() {
    double[][] cases = {{50, 0}, {50.125, 1}, {8, 0}, {7.875, 1}};
    for (double[] each : cases) {
      ovenK = 500;
      millis = 0;
      lag = new SampleLag(0, ovenK - each[0], ovenK, 0, true, 320, 0, 2, 450, 0);
      window(7.5, each[0], 0);
      assertEquals(each[1], lag.strange(), each[0] + " K behind");
    }
  }

  /** At 0.0625 K/s lags of 64 s and 160 s are 4 K and 10 K. */
  @Test
  void lagsThatAreLessThanSixKelvinApartMayBeTheSensorsOffsets() {
    double[][] cases = {{64, 10, 0}, {64, 10.125, 1}, {160, 4, 0}, {160, 3.875, 1}};
    for (double[] each : cases) {
      ovenK = 500;
      millis = 0;
      lag = new SampleLag(0, ovenK - each[1], ovenK, 0, true, each[0], 0, 2, 480, 0);
      window(7.5, each[1], 0);
      assertEquals(each[2], lag.strange(), each[1] + " K behind");
    }
    ovenK = 500;
    millis = 0;
    lag = new SampleLag(0, ovenK - 1, ovenK, 0, true, 112, 0, 2, 480, 0);
    window(7.5, 1, 0);
    assertEquals(0, lag.strange(), "1 K instead of 7 K is a seventh, but only 6 K apart");
    lag = new SampleLag(millis, ovenK - 9, ovenK, 0, true, 48, 0, 2, 480, 0);
    window(7.5, 9, 0);
    assertEquals(0, lag.strange(), "9 K instead of 3 K is three times, but only 6 K apart");
  }

  @Test
  void lagsSeventyKelvinApartAreStillComparedAndFartherOnesAreLearnedAnew() {
    for (double awayK : new double[] {-70, 70, -70.125, 70.125}) {
      ovenK = 500;
      millis = 0;
      double nowK = ovenK + 6 - 5;
      lag = new SampleLag(0, ovenK - 5, ovenK, 0, true, 600, 0, 2, nowK - awayK, 0);
      window(6, 5, 0);
      boolean compared = StrictMath.abs(awayK) == 70;
      assertEquals(compared ? 1 : 0, lag.strange(), awayK + " K away");
      assertEquals(compared ? 600 : 100, lag.usualS(), 1e-9);
      assertEquals(compared ? 2 : 1, lag.learned());
    }
  }

  @Test
  void whatLookedStrangeOnceIsLookedAtAgainHoweverHotItIsByThen() {
    ovenK = 500;
    lag = new SampleLag(0, ovenK - 5, ovenK, 0, true, 600, 0, 2, 400, 1);
    millis = 0;
    window(6, 5, 0);
    assertTrue(lag.loose());
  }

  @Test
  void theHeatIsLearnedAsTheLagIs() {
    known();
    window(6, 30, 3);
    assertEquals(600, lag.usualS(), 1e-9);
    assertEquals(0.5 * 60, lag.usualHeatS(), 1e-9);
  }

  @Test
  void afterAGapTheLagIsStillKnownButItsWindowBeginsAnew() {
    known();
    SampleLag after = lag.restarted();
    assertEquals(-1, after.fromMillis());
    assertFalse(after.steadyBefore());
    assertEquals(600, after.usualS());
    assertEquals(lag.usualHeatS(), after.usualHeatS());
    assertEquals(2, after.learned());
  }
}
