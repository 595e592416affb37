package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import tarnish.shared.oven.OvenModel;

/**
 * The rounded setpoint of an oven without radiation, whose time constants are the same everywhere:
 * vessel 100 s, sample 50 s, delay 25 s, 0.5 K/s at full duty, loss 1/2000 s.
 */
class CourseTest {
  private static final double ROOM_K = 295;
  private static final double TICK_S = 0.25;
  private static final double VESSEL_S = 100;
  private static final double SAMPLE_S = 50;
  private static final double DELAY_S = 25;
  private static final double HEATING = 0.5;
  private static final OvenModel OVEN =
      new OvenModel(HEATING, 20, 5, 2000, 0, VESSEL_S, 0, SAMPLE_S, 0, 10_000, 0.1);

  private static MovedCourse at(double setpointK) {
    MovedCourse course = new MovedCourse(OVEN, RegulatorTuning.USUAL, 1, Course.NONE);
    course.restart(setpointK);
    return course;
  }

  /** On its way, with its lags as given. */
  private static MovedCourse underWay(
      double progress,
      double rampK,
      double lineK,
      double firstK,
      double secondK,
      double setpointK,
      double lagS) {
    Course from = new Course(setpointK, rampK, lineK, firstK, secondK, lagS, 0, progress);
    return new MovedCourse(OVEN, RegulatorTuning.USUAL, 1, from);
  }

  /** What the oven loses when it holds a temperature, wall and neck of the vessel, in K/s. */
  private static double lossKPerS(double ovenK) {
    double vesselK = ROOM_K + (ovenK - ROOM_K) * 10_000 / (10_000 + VESSEL_S);
    return (ovenK - ROOM_K) / 2000 + 0.1 * (vesselK - ROOM_K) / 10_000;
  }

  /** The corner's lag by which no more is asked than allowed: tau² - s tau - t = 0. */
  private static double neededS(double rate, double allowed) {
    double s = 0.2707 * (VESSEL_S + SAMPLE_S) * rate / allowed;
    double t = 0.2306 * VESSEL_S * SAMPLE_S * rate / allowed;
    return (s + StrictMath.sqrt(s * s + 4 * t)) / 2;
  }

  private static double firstLagS(double fromK, double toK, double rate) {
    MovedCourse course = at(fromK);
    course.move(toK, rate, rate, ROOM_K, TICK_S);
    return course.lagS;
  }

  /** At 900 K 0.2 K/s are free and 0.3 K/s are lost, so cooling asks for nothing more. */
  @Test
  void aFastCornerOfAHotOvenIsRoundedByWhatItsHeaterHasLeft() {
    double allowed = 2 * (HEATING - lossKPerS(900));
    double needed = neededS(0.1, allowed);
    assertTrue(needed > 20 && needed < 30, "it decides: " + needed);
    assertEquals(needed, firstLagS(900, 1000, 0.1), 1e-9);
    MovedCourse half = new MovedCourse(OVEN, RegulatorTuning.USUAL, 0.8, Course.NONE);
    half.restart(900);
    half.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(neededS(0.1, 2 * (0.8 * HEATING - lossKPerS(900))), half.lagS, 1e-9);
  }

  @Test
  void onTheWayDownTheLossIsWhatThereIs() {
    double needed = neededS(0.2, 2 * lossKPerS(700));
    assertTrue(needed > 25, "it decides: " + needed);
    assertEquals(needed, firstLagS(700, 500, 0.2), 1e-9);
  }

  @Test
  void noCornerIsShorterThanTheDelayLets() {
    assertEquals(0.7 * DELAY_S, firstLagS(900, 1000, 0.01), 1e-9);
    OvenModel quick = new OvenModel(HEATING, 5, 1, 2000, 0, VESSEL_S, 0, SAMPLE_S, 0, 10_000, 0.1);
    MovedCourse course = new MovedCourse(quick, RegulatorTuning.USUAL, 1, Course.NONE);
    course.restart(900);
    course.move(1000, 0.005, 0.005, ROOM_K, TICK_S);
    assertEquals(10, course.lagS, 1e-9, "nor than ten seconds");
    MovedCourse calm =
        new MovedCourse(OVEN, new RegulatorTuning(2.5, 0.8, 0.2, 1.4, 2), 1, Course.NONE);
    calm.restart(900);
    calm.move(1000, 0.01, 0.01, ROOM_K, TICK_S);
    assertEquals(0.2 * (VESSEL_S + SAMPLE_S), calm.lagS, 1e-9);
  }

  @Test
  void anOvenWithoutAnythingLeftHasTheLongestCorner() {
    assertTrue(lossKPerS(1300) > HEATING);
    assertEquals(VESSEL_S + SAMPLE_S, firstLagS(1300, 1400, 0.1), 1e-9);
    assertTrue(neededS(0.1, 2 * (HEATING - lossKPerS(1270))) > VESSEL_S + SAMPLE_S);
    assertEquals(VESSEL_S + SAMPLE_S, firstLagS(1270, 1400, 0.1), 1e-9);
  }

  /** Slope of a ramp behind three lags, as a share of the ramp's, and its derivatives by steps. */
  private static double slope(double t, double tau) {
    double x = t / tau;
    return t <= 0 ? 0 : 1 - (1 + x + x * x / 2) * StrictMath.exp(-x);
  }

  /**
   * The model run backwards on that slope: w = r1 + (tv + ts) r2 + tv ts r3, and delay w' ahead.
   */
  private static double asked(double t, double tau, double delayS) {
    double h = tau / 200;
    double r1 = slope(t, tau);
    double r2 = (slope(t + h, tau) - slope(t - h, tau)) / (2 * h);
    double r3 = (slope(t + h, tau) - 2 * r1 + slope(t - h, tau)) / (h * h);
    double ahead = slope(t + 2 * h, tau) - 2 * slope(t + h, tau);
    double r4 = (ahead + 2 * slope(t - h, tau) - slope(t - 2 * h, tau)) / (2 * h * h * h);
    double sum = VESSEL_S + SAMPLE_S;
    double product = VESSEL_S * SAMPLE_S;
    return r1 + sum * r2 + product * r3 + delayS * (r2 + sum * r3 + product * r4);
  }

  /** At the times that the course itself looks at. */
  private static double leastAsked(double tau, double delayS) {
    double least = 1;
    for (double x : new double[] {1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7}) {
      least = StrictMath.min(least, asked(x * tau, tau, delayS));
    }
    return least;
  }

  /**
   * An oven that is hardly warmer than the room cannot be cooled: its lead must not be too big.
   * With its heater a hundred times as free as it is, nothing else decides.
   */
  @Test
  void aColdOvensCornerIsSoLongThatItNeedNotBeCooled() {
    RegulatorTuning free = new RegulatorTuning(2.5, 0.8, 0.02, 100, 2);
    for (double[] delays : new double[][] {{5, 1}, {8, 3}, {9, 0}}) {
      OvenModel oven =
          new OvenModel(
              HEATING, delays[0], delays[1], 2000, 0, VESSEL_S, 0, SAMPLE_S, 0, 10_000, 0.1);
      for (double fromK : new double[] {300, 330, 360}) {
        MovedCourse course = new MovedCourse(oven, free, 1, Course.NONE);
        course.restart(fromK);
        course.move(600, 0.1, 0.1, ROOM_K, TICK_S);
        String what = "from " + fromK + " K, lag " + course.lagS;
        assertTrue(course.lagS > 10.5, "longer than anything else asks, " + what);
        double lost = lossKPerS(fromK) / 0.1;
        assertEquals(-lost, leastAsked(course.lagS, delays[0] + delays[1]), 0.02, what);
      }
    }
  }

  /** A room warmer than the oven: no cooling at all, and then no corner is long enough. */
  @Test
  void aCornerIsNeverLongerThanVesselAndSampleTogether() {
    MovedCourse course = at(280);
    course.move(600, 1e-3, 1e-3, ROOM_K, TICK_S);
    assertEquals(VESSEL_S + SAMPLE_S, course.lagS, 1e-9);
  }

  @Test
  void theLagFollowsWhatIsNeededByATenthOfASecondASecond() {
    // At 900 K it should be 23.4 s.
    MovedCourse longer = underWay(1, 900, 900, 900, 900, 900, 20);
    longer.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(20 + 0.025, longer.lagS, 1e-12);
    assertEquals(900 + 0.1 * TICK_S, longer.rampK, 1e-12, "a longer lag slows nothing");
    MovedCourse shorter = underWay(1, 900, 900, 900, 900, 900, 60);
    shorter.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(60 - 0.025, shorter.lagS, 1e-12);
    assertEquals(900 + 0.1 * TICK_S / 1.35, shorter.rampK, 1e-12, "1 + 3.5 times 0.1 s/s");
    double needed = neededS(0.1, 2 * (HEATING - lossKPerS(900)));
    MovedCourse nearly = underWay(1, 900, 900, 900, 900, 900, needed + 0.01);
    nearly.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(needed, nearly.lagS, 1e-9);
    assertEquals(900 + 0.1 * TICK_S / (1 + 3.5 * 0.01 / TICK_S), nearly.rampK, 1e-9);
  }

  @Test
  void threeLagsFollowTheRampOneAfterTheOther() {
    MovedCourse course = underWay(1, 910, 912, 905, 902, 900, 30);
    double lag = 30 - 0.025;
    course.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    double share = TICK_S / (lag + TICK_S);
    double ramp = 910 + 0.1 * TICK_S / 1.35;
    double first = 905 + share * (ramp - 905);
    double second = 902 + share * (first - 902);
    assertEquals(lag, course.lagS, 1e-12);
    assertEquals(ramp, course.rampK, 1e-9);
    assertEquals(first, course.firstK, 1e-9);
    assertEquals(second, course.secondK, 1e-9);
    assertEquals(900 + share * (second - 900), course.setpointK, 1e-9);
    assertEquals(912 + 0.1 * TICK_S, course.lineK, 1e-12);
  }

  @Test
  void theStraightRampGoesUpAndDownAtTheRecipesRateAndStopsAtItsEnd() {
    MovedCourse up = underWay(1, 910, 999.99, 905, 902, 900, 30);
    up.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(1000, up.lineK, 1e-12);
    MovedCourse down = underWay(1, 890, 888, 895, 898, 900, 30);
    down.move(500, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(888 - 0.1 * TICK_S, down.lineK, 1e-12);
    assertEquals(890 - 0.1 * TICK_S / 1.35, down.rampK, 1e-9);
    MovedCourse last = underWay(1, 890, 500.01, 895, 898, 900, 30);
    last.move(500, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(500, last.lineK, 1e-12);
  }

  /** Behind the straight ramp by 0.4 K it takes 0.4 of what it may be faster, from 1 K all. */
  @Test
  void whatIsBehindTheStraightRampHurriesUpToTheLimit() {
    for (double sign : new double[] {1, -1}) {
      double toK = sign > 0 ? 1000 : 500;
      for (double behindK : new double[] {-2, 0, 0.4, 1, 5}) {
        // Its line has moved on by one step when it is looked at.
        double lineK = 900 + sign * (behindK - 0.1 * TICK_S);
        MovedCourse course = underWay(1, 900, lineK, 900, 900, 900, 20);
        course.move(toK, 0.1, 0.12, ROOM_K, TICK_S);
        double hurry = StrictMath.max(0, StrictMath.min(1, behindK));
        double movedK = sign * (course.rampK - 900);
        double slower = course.lagS < 20 ? 1.35 : 1;
        assertEquals((0.1 + hurry * 0.02) * TICK_S / slower, movedK, 1e-9, "behind " + behindK);
      }
    }
  }

  @Test
  void aCourseThatIsHeldBackLivesInSlowerTime() {
    MovedCourse half = underWay(0.5, 910, 912, 905, 902, 900, 20);
    half.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(910 + 0.1 * TICK_S / 2, half.rampK, 1e-9);
    assertEquals(912 + 0.1 * TICK_S / 2, half.lineK, 1e-9);
    double share = TICK_S / 2 / (20.025 + TICK_S / 2);
    assertEquals(905 + share * (half.rampK - 905), half.firstK, 1e-9);
    MovedCourse standing = underWay(0, 910, 912, 905, 902, 900, 20);
    standing.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(900, standing.setpointK);
    assertEquals(
        1, new MovedCourse(OVEN, RegulatorTuning.USUAL, 1, Course.NONE).now().rateKPerS() + 1);
    MovedCourse anew = at(900);
    anew.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(900 + 0.1 * TICK_S, anew.rampK, 1e-9, "a heater that stood is not held back");
  }

  /** Half a kelvin before its end; the setpoint itself is there, so that the lag stays. */
  private static double closingInK(double leftK, double endK, double lagS, double rate) {
    MovedCourse course = underWay(1, endK - leftK, endK, endK, endK, endK, lagS);
    course.move(endK, rate, rate, ROOM_K, TICK_S);
    return course.rampK - (endK - leftK);
  }

  @Test
  void aRampClosesInOnItsEndAsFastAsTheOvenLosesItsHeat() {
    for (double endK : new double[] {350, 600}) {
      double free = 2 * lossKPerS(endK);
      double asked = VESSEL_S + SAMPLE_S + 0.2707 * VESSEL_S * SAMPLE_S / 20;
      double landingS = StrictMath.max(20, 0.1 * asked / (0.1 + free));
      assertEquals(0.5 / landingS * TICK_S, closingInK(0.5, endK, 20, 0.1), 1e-9);
      assertEquals(-0.5 / landingS * TICK_S, closingInK(-0.5, endK, 20, 0.1), 1e-9);
    }
    // A slow ramp closes in within its lag.
    assertEquals(0.5 / 120 * TICK_S, closingInK(0.5, 900, 120, 0.02), 1e-9);
    assertEquals(0.1 * TICK_S, closingInK(90, 900, 20, 0.1), 1e-9, "not before it is near");
  }

  /** From above the heater must catch it: what it has left counts. */
  @Test
  void onTheWayDownTheRampClosesInAsFastAsTheHeaterCanCatchIt() {
    MovedCourse course = underWay(1, 900.5, 900, 901, 901, 901, 20);
    course.move(900, 0.1, 0.1, ROOM_K, TICK_S);
    double free = 2 * (HEATING - lossKPerS(900));
    double asked = VESSEL_S + SAMPLE_S + 0.2707 * VESSEL_S * SAMPLE_S / course.lagS;
    double landingS = StrictMath.max(course.lagS, 0.1 * asked / (0.1 + free));
    assertEquals(900.5 - 0.5 / landingS * TICK_S, course.rampK, 1e-9);
  }

  @Test
  void aRampHasLandedWithinTwoHundredthsOfAKelvin() {
    assertEquals(0.0195, closingInK(0.0195, 600, 20, 0.1), 1e-9);
    assertTrue(closingInK(0.021, 600, 20, 0.1) < 0.02);
  }

  @Test
  void aSetpointThatIsThereRestsWithoutLags() {
    MovedCourse there = underWay(1, 600, 600, 599.99, 599.995, 599.995, 20);
    there.move(600, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(600, there.setpointK);
    assertEquals(600, there.firstK);
    assertEquals(0, there.lagS);
    MovedCourse first = underWay(1, 600, 600, 599.97, 599.995, 599.995, 20);
    first.move(600, 0.1, 0.1, ROOM_K, TICK_S);
    assertTrue(first.lagS > 0, "its first lag is still 0.03 K away");
    MovedCourse last = underWay(1, 600, 600, 599.99, 599.985, 599.98, 20);
    last.move(600, 0.1, 0.1, ROOM_K, TICK_S);
    assertTrue(last.lagS > 0, "half a step of 0.025 K is the most that it may leap");
    there.move(600, 0.1, 0.1, ROOM_K, TICK_S);
    assertEquals(600, there.setpointK);
    assertEquals(0, there.lagS, "and stays there");
    there.move(700, 0.1, 0.1, ROOM_K, TICK_S);
    assertTrue(there.lagS > 0 && there.rampK > 600, "until it is to go on");
  }

  @Test
  void anythingThatIsNotAtItsEndMovesOn() {
    double[][] apart = {
      {599, 600, 600, 600, 600},
      {600, 599, 600, 600, 600},
      {600, 600, 599, 600, 600},
      {600, 600, 600, 599, 600},
      {600, 600, 600, 600, 599}
    };
    for (double[] k : apart) {
      MovedCourse course = underWay(1, k[0], k[1], k[2], k[3], k[4], 0);
      course.move(600, 0.1, 0.1, ROOM_K, TICK_S);
      double[] after = {
        course.rampK, course.lineK, course.firstK, course.secondK, course.setpointK
      };
      assertFalse(Arrays.equals(k, after), "from " + Arrays.toString(k));
    }
  }

  /** Derivatives by the definition of the lags: x' = (before - x)/lag, slowed by the progress. */
  @Test
  void theDerivativesAreThoseOfTheLagsInSlowerTime() {
    MovedCourse course = underWay(0.5, 910, 912, 905, 902, 900, 20);
    assertEquals(0.5 * (902 - 900) / 20, course.now().rateKPerS(), 1e-12);
    double first1 = (905 - 902) / 20.0;
    double second1 = (902 - 900) / 20.0;
    assertEquals(0.25 * (first1 - second1) / 20, course.now().secondDerivative(), 1e-12);
    double ramp1 = (910 - 905) / 20.0;
    assertEquals(
        0.125 * ((ramp1 - first1) - (first1 - second1)) / 400,
        course.now().thirdDerivative(),
        1e-12);
    // The ramp itself stands: its slope is known after a move only.
    double fourth = 0 - 3 * ramp1 + 3 * first1 - second1;
    assertEquals(0.0625 * fourth / 8000, course.now().fourthDerivative(), 1e-15);
    course.move(1000, 0.1, 0.1, ROOM_K, TICK_S);
    double lag = course.lagS;
    double slope =
        0.1
            - (3 * (course.rampK - course.firstK)
                    - 3 * (course.firstK - course.secondK)
                    + (course.secondK - course.setpointK))
                / lag;
    assertEquals(0.0625 * slope / (lag * lag * lag), course.now().fourthDerivative(), 1e-15);
    course.restart(900);
    assertEquals(0, course.now().secondDerivative());
    assertEquals(0, course.now().thirdDerivative());
    assertEquals(0, course.now().fourthDerivative());
  }

  @Test
  void onTheWayDownTheSlopeOfTheRampIsNegative() {
    MovedCourse course = underWay(1, 890, 890, 890, 890, 890, 20);
    course.move(500, 0.1, 0.1, ROOM_K, TICK_S);
    double lag = course.lagS;
    double slope =
        (course.rampK - 890) / TICK_S
            - (3 * (course.rampK - course.firstK)
                    - 3 * (course.firstK - course.secondK)
                    + (course.secondK - course.setpointK))
                / lag;
    assertTrue(course.rampK < 890);
    assertEquals(slope / (lag * lag * lag), course.now().fourthDerivative(), 1e-12);
  }
}
