package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;

/** Pulses planned by hand: 6 K are allowed, 0.82 of them aimed at. Dosing began at 300 K. */
class DosePlanTest {
  private static final double RISE_K = 6;
  private static final double AIM_K = 4.92;
  private static final double R = 8.31446261815324;

  private final ControlBench bench = ControlBench.with(TestSteps.soak(295, 1e6, 5));

  /** The sample, behind its filter, is so much warmer than when dosing began. */
  private TickWork warmer(double excessK) {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    work.heat = new HeatWatch(300 + excessK, 300, 300, 300, HeatBalance.NONE);
    return work;
  }

  private TickWork atPa(double pressurePa, double excessK) {
    bench.pressurePa(pressurePa);
    TickWork work = warmer(excessK);
    work.pulse = Pulse.NONE.begin(20_000, 1000);
    return work;
  }

  /** The second pulse, of 1000 Pa, began at no excess and was hottest by 2 K after 20 s. */
  private static DosePlan second() {
    return new DosePlan(300, 1e-3, false, 1000, 900, 0, 0, 0, 2, 20);
  }

  private static DosePlan with(boolean isFirst, double overPa, double mostOverPa, double fromK) {
    return new DosePlan(300, 1e-3, isFirst, 1000, 900, overPa, mostOverPa, fromK, 2, 20);
  }

  @Test
  void dosingBeginsFromTheFilteredSampleAndTheMostThatOxygenCanWarm() {
    TickWork work = warmer(2);
    DosePlan plan = DosePlan.begin(work);
    assertEquals(302, plan.restSampleK());
    // n = p V/(R T) of which 0.995 is oxygen; 312 kJ/mol into 3 R of 4 g of copper.
    double molPerPa = (TestRig.HOT_M3 + TestRig.COLD_M3) / 295 / R * 0.995;
    double kPerMol = 312e3 / (3 * R * 4e-3 / 0.063546);
    assertEquals(kPerMol * molPerPa, plan.warmingKPerPa(), 1e-9 * kPerMol * molPerPa);
    assertEquals(0, plan.pulsePa());
  }

  @Test
  void aBatchThatBeginsWithDosingTakesTheSampleAsItIsRead() {
    TickWork work = warmer(0);
    work.heat = HeatWatch.NONE;
    bench.set(Channel.SAMPLE_TEMPERATURE, 310);
    DosePlan plan = DosePlan.begin(work);
    assertEquals(310, plan.restSampleK(), 0.01);
    assertEquals(0, plan.excessK(work), "the filter has seen nothing yet");
  }

  @Test
  void aRecipeThatDoesNotKnowItsHeatBeginsWithTheSmallestPulse() {
    ControlBench other =
        new ControlBench(new TestRig().build(), TestSteps.withoutHeat(TestSteps.soak(295, 1e6, 5)));
    TickWork work = new TickWork(other.plan, other.state);
    work.readings = other.readings;
    DosePlan plan = DosePlan.begin(work);
    assertEquals(0, plan.warmingKPerPa());
    assertEquals(HeatCap.LEAST_PA, plan.nextPa(work, RISE_K, 1500, 20));
  }

  @Test
  void theFirstPulseFillsTheAllowedRiseIfAllItsOxygenReactedAtOnce() {
    DosePlan first = new DosePlan(300, 0.01, false, 0, 0, 0, 0, 0, 0, 0);
    assertEquals(AIM_K / 0.01, first.nextPa(warmer(0), RISE_K, 1500, 20), 1e-9);
    assertEquals((AIM_K - 1) / 0.01, first.nextPa(warmer(1), RISE_K, 1500, 20), 1e-9);
    assertEquals(300, first.nextPa(warmer(0), RISE_K, 300, 20), "the recipe's largest");
    DosePlan hot = new DosePlan(300, 1, false, 0, 0, 0, 0, 0, 0, 0);
    assertEquals(HeatCap.LEAST_PA, hot.nextPa(warmer(0), RISE_K, 1500, 20), "never less");
  }

  /** 2 K by 1000 Pa are 2 mK/Pa: 4.92 K need 2460 Pa, but no pulse grows by more than 1.3. */
  @Test
  void aPulseIsSizedByTheLastPeakAndGrowsByThirtyPerCentAtMost() {
    assertEquals(1300, second().nextPa(warmer(0), RISE_K, 1e4, 40), 1e-9);
    assertEquals(1200, second().nextPa(warmer(0), RISE_K, 1200, 40), 1e-9);
    // With 2.4 K allowed the aim is 1.968 K.
    assertEquals(984, second().nextPa(warmer(0), 2.4, 1e4, 40), 1e-9);
  }

  /** 20 s after a peak of 2 K at 20 s the excess is 1 K: half of it is left at the next peak. */
  @Test
  void whatIsLeftOfTheExcessAtTheNextPeakFollowsFromHowItCooled() {
    double keptK = 0.5 * 1;
    assertEquals((0.82 * 2.4 - keptK) / 2e-3, second().nextPa(warmer(1), 2.4, 1e4, 40), 1e-9);
    // After 40 s the same cooling halves it in two peaks' time: a root is left, 0.7071.
    double slow = StrictMath.sqrt(0.5);
    assertEquals((0.82 * 2.4 - slow) / 2e-3, second().nextPa(warmer(1), 2.4, 1e4, 60), 1e-9);
  }

  @Test
  void noLessThanHalfOfAnExcessIsBelievedToStay() {
    // 10 s after the peak 0.5 K of 2 K: a quarter squared would be left.
    assertEquals((0.82 * 2.4 - 0.25) / 2e-3, second().nextPa(warmer(0.5), 2.4, 1e4, 30), 1e-9);
  }

  @Test
  void beforeTheSampleCoolsAllOfItsExcessCounts() {
    assertEquals(0, second().nextPa(warmer(2), 2.4, 1e4, 40), "no room is left");
    assertEquals((0.82 * 4 - 2) / 2e-3, second().nextPa(warmer(2), 4, 1e4, 40), 1e-9);
    assertEquals((0.82 * 4 - 1) / 2e-3, second().nextPa(warmer(1), 4, 1e4, 20), 1e-9);
    assertEquals(1300, second().nextPa(warmer(-1), 4, 1e4, 40), 1e-9, "colder than at rest");
  }

  /** Above the aim, nothing; and what could not add a fifth of the rise is waited with. */
  @Test
  void aPulseThatIsNotWorthWhileIsWaitedWith() {
    // Room for 0.5 K of 2.4 K (a fifth is 0.48): 250 Pa. For 0.46 K: nothing yet.
    double justWorth = 0.82 * 2.4 - 0.5;
    assertEquals(250, second().nextPa(warmer(justWorth), 2.4, 1e4, 20), 1e-6);
    assertEquals(0, second().nextPa(warmer(0.82 * 2.4 - 0.46), 2.4, 1e4, 20));
    assertEquals(0, second().nextPa(warmer(0.82 * 2.4 - 0.15), 2.4, 50, 20), "under the least");
  }

  @Test
  void whatTheValveLetsInTooMuchIsTakenOffThePulse() {
    assertEquals(984 - 80, with(false, 80, 0, 0).nextPa(warmer(0), 2.4, 1e4, 40), 1e-9);
    assertEquals(984 - 99, with(false, 80, 100, 0).nextPa(warmer(0), 2.4, 1e4, 40), 1e-9);
    // 984 Pa are worth while, but 950 less are smaller than the smallest pulse.
    assertEquals(0, with(false, 950, 0, 0).nextPa(warmer(0), 2.4, 1e4, 40));
  }

  @Test
  void theFirstPeakCountsHalfAsMuchAgainAndLaterOnesFallByATenthAtMost() {
    // 2 K by 1000 Pa, times 1.5: 3 mK/Pa.
    assertEquals(0.82 * 2.4 / 3e-3, with(true, 0, 0, 0).nextPa(warmer(0), 2.4, 1e4, 40), 1e-9);
    DosePlan cooler = new DosePlan(300, 4e-3, false, 1000, 900, 0, 0, 0, 2, 20);
    assertEquals(0.82 * 2.4 / 3.6e-3, cooler.nextPa(warmer(0), 2.4, 1e4, 40), 1e-9);
  }

  @Test
  void onlyWhatThePulseAddedToTheExcessIsLearnt() {
    // It began at 0.4 K, of which all is kept: 1.6 K by 1000 Pa.
    assertEquals(0.82 * 2.4 / 1.6e-3, with(false, 0, 0, 0.4).nextPa(warmer(0), 2.4, 1e4, 40), 1e-9);
  }

  @Test
  void aPulseWithoutHeatIsTakenToWarmALittle() {
    DosePlan cold = new DosePlan(300, 0, false, 1000, 900, 0, 0, 0, 0, 20);
    assertEquals(1300, cold.nextPa(warmer(0), RISE_K, 1e4, 90), 1e-9);
    // 1e-5 K/Pa: 4.92 mK of aim are 492 Pa.
    assertEquals(492, cold.nextPa(warmer(0), 6e-3, 1e4, 90), 1e-9);
  }

  @Test
  void aPulseTakesOverWhatTheLastOneTaught() {
    DosePlan next = with(false, 80, 20, 0).given(warmer(1), 1100, 40);
    assertEquals(2e-3, next.warmingKPerPa(), 1e-12);
    assertEquals(1100, next.pulsePa());
    assertEquals(80, next.mostOverPa(), 1e-12);
    assertEquals(0, next.overPa());
    assertEquals(0, next.seenPa());
    assertEquals(1, next.fromK(), 1e-9);
    assertEquals(1, next.peakK(), 1e-9);
    assertFalse(next.isFirst());
    DosePlan begun = new DosePlan(300, 0.01, false, 0, 0, 0, 0, 0, 0, 0);
    DosePlan first = begun.given(warmer(0), 500, 20);
    assertTrue(first.isFirst());
    assertEquals(0.01, first.warmingKPerPa(), "nothing has been measured yet");
  }

  @Test
  void aPulseIsFollowedByItsPeakAndWhatTheGaugeShows() {
    DosePlan given = new DosePlan(300, 1e-3, false, 1000, 0, 0, 0, 0, 0, 0);
    DosePlan goesIn = given.watched(atPa(20_400, 0.5), true, 1);
    assertEquals(400, goesIn.seenPa(), 1);
    assertEquals(1000, goesIn.pulsePa(), "not yet more than was told");
    assertEquals(0, goesIn.overPa());
    assertEquals(0.5, goesIn.peakK(), 1e-9);
    assertEquals(1, goesIn.peakAtS());

    DosePlan over = goesIn.watched(atPa(21_200, 0.3), true, 2);
    assertEquals(1200, over.seenPa(), 1);
    assertEquals(1200, over.pulsePa(), 1);
    assertEquals(200, over.overPa(), 1);
    assertEquals(0.5, over.peakK(), 1e-9, "it has cooled");
    assertEquals(1, over.peakAtS(), "and the peak is where it was");
    DosePlan more = over.watched(atPa(21_300, 0.3), true, 3);
    assertEquals(300, more.overPa(), 1, "surpluses add up");

    DosePlan warmer = over.watched(atPa(25_000, 0.9), false, 9);
    assertEquals(1200, warmer.seenPa(), 1, "what comes later is not of the pulse");
    assertEquals(0.9, warmer.peakK(), 1e-9);
    assertEquals(9, warmer.peakAtS());
    assertSame(warmer, warmer.watched(atPa(21_000, 0.9), true, 10), "nothing new");
  }

  @Test
  void gasShowsByAQuarterOfItsStepOrByItsHeat() {
    assertFalse(plan(300, 74, 0, 0.14).showsGas());
    assertTrue(plan(300, 75, 0, 0).showsGas(), "a quarter of 300 Pa");
    assertTrue(plan(1000, 100, 0, 0).showsGas(), "100 Pa are enough of any pulse");
    assertFalse(plan(1000, 99, 1, 1.14).showsGas());
    assertTrue(plan(1000, 0, 0.25, 0.4).showsGas(), "0.15 K");
  }

  private static DosePlan plan(double pulsePa, double seenPa, double fromK, double peakK) {
    return new DosePlan(300, 1e-3, false, pulsePa, seenPa, 0, 0, fromK, peakK, 20);
  }

  @Test
  void aPeakIsPassedWhenTheSampleHasCooledByAPartOfIt() {
    // Of a rise of 2 K the sample must lose 0.12 K, of 0.5 K at least 0.05 K.
    assertFalse(plan(1000, 900, 1, 3).isPeakPassed(warmer(2.9), 40));
    assertTrue(plan(1000, 900, 1, 3).isPeakPassed(warmer(2.87), 40));
    assertFalse(plan(1000, 900, 0, 0.5).isPeakPassed(warmer(0.46), 40));
    assertTrue(plan(1000, 900, 0, 0.5).isPeakPassed(warmer(0.44), 40));
  }

  @Test
  void aPulseWithoutHeatIsOverAfterAMinuteAndAHalf() {
    assertFalse(plan(1000, 900, 0, 0.1).isPeakPassed(warmer(-3), 89.75));
    assertTrue(plan(1000, 900, 0, 0.1).isPeakPassed(warmer(0.1), 90));
    assertFalse(plan(1000, 900, 0, 0.15).isPeakPassed(warmer(0.15), 90), "0.15 K is heat");
  }
}
