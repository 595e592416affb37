package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Step;

/**
 * Ticks of a dosing step put together by hand. Planned: 6 K allowed, 1500 Pa at most, to 90 kPa;
 * the last pulse was of 1000 Pa, warmed the sample by 2 K and is 40 s old.
 */
class DoseRunTest {
  private static final Step.Dose FIXED =
      new Step.Dose(TestSteps.unattended("Dose"), 1500, 90_000, 50, 0.5, 0.5, 20, 3600);
  private static final Step.Dose PLANNED = FIXED.planned(1500, 6);
  private static final double TICK_S = 0.25;

  private final ControlBench bench = ControlBench.with(PLANNED);

  private static DosePlan plan(double seenPa, double peakK) {
    return new DosePlan(300, 1e-3, false, 1000, seenPa, 0, 0, 0, peakK, 20);
  }

  /** A vessel that has rested for a minute, taking up so much, its sample so much above rest. */
  private TickWork rested(double pressurePa, double uptakeMolPerS, double excessK) {
    GasByHand gas = new GasByHand(bench.plan, 7e-3).rest(60, uptakeMolPerS);
    bench.pressurePa(pressurePa);
    TickWork work = gas.work;
    work.readings = bench.readings;
    work.tickS = TICK_S;
    work.phase = BatchState.RUNNING;
    work.heat = new HeatWatch(300 + excessK, 300, 300, 300, HeatBalance.NONE);
    return work;
  }

  private static DoseRun after(Step.Dose step, DosePlan plan) {
    return new DoseRun(step, 3, 40, "", plan);
  }

  private static String waitingFor(StepRun run) {
    return ((DoseRun) run).waitingFor();
  }

  @Test
  void aCoolSampleThatShowedGasAndHeatGetsTheNextPlannedPulse() {
    TickWork work = rested(50_000, 0, 0.5);
    DoseRun next = (DoseRun) after(PLANNED, plan(900, 2)).step(work);
    assertEquals(4, next.given());
    assertEquals(0, next.waitedS());
    assertTrue(work.pulse.open());
    assertEquals(1300, work.pulse.toPa() - work.pulse.fromPa(), 1e-6);
    assertEquals(1300, next.plan().pulsePa(), 1e-6);
    // By the rig file the valve passes that much in so many seconds; half as long again is allowed.
    double paPerS = Accounts.oxygenPaPerS(work);
    assertEquals(TICK_S + 1.5 * 1300 / paPerS, work.pulse.mostS(), 1e-9);
    assertEquals(work.heat.sampleK(), work.heat.markedSampleK(), "the heat is watched anew");
  }

  @Test
  void aPulseOfTheRecipesSizeMayLastAMinute() {
    TickWork work = rested(50_000, 0, 0);
    DoseRun next = (DoseRun) after(FIXED, null).step(work);
    assertEquals(1500, work.pulse.toPa() - work.pulse.fromPa(), 1e-6);
    assertEquals(60, work.pulse.mostS());
    assertNull(next.plan());
  }

  @Test
  void whileThePulseIsOpenNothingIsWaitedForAndItsSizeIsFollowed() {
    TickWork work = rested(51_200, 0, 0.7);
    work.pulse = Pulse.NONE.begin(50_000, 1000);
    DoseRun next = (DoseRun) new DoseRun(PLANNED, 3, 40, "", plan(900, 0.2)).step(work);
    assertEquals(0, next.waitedS());
    assertEquals(1200, next.plan().seenPa(), 1);
    assertEquals(0.7, next.plan().peakK(), 1e-9);
  }

  @Test
  void whatStreamsInShortlyAfterAPulseIsStillOfIt() {
    TickWork work = rested(51_200, 0, 0.7);
    work.pulse = Pulse.NONE.begin(50_000, 1000).shut();
    DosePlan soon = ((DoseRun) new DoseRun(PLANNED, 3, 0.5, "", plan(900, 2)).step(work)).plan();
    assertEquals(1200, soon.seenPa(), 1);
    DosePlan late = ((DoseRun) new DoseRun(PLANNED, 3, 0.75, "", plan(900, 2)).step(work)).plan();
    assertEquals(900, late.seenPa());
  }

  @Test
  void theShortestWaitIsWaitedFirst() {
    TickWork work = rested(50_000, 0, 0.5);
    StepRun early = new DoseRun(PLANNED, 3, 19.75, "", plan(900, 2)).step(work);
    assertEquals("shortest wait", waitingFor(early));
    assertEquals(20, ((DoseRun) early).waitedS());
    assertFalse(work.pulse.open());
    StepRun due = new DoseRun(PLANNED, 3, 20, "", plan(900, 2)).step(work);
    assertEquals("", waitingFor(due));
    assertTrue(work.pulse.open());
  }

  @Test
  void theFirstPulseWaitsForNothing() {
    TickWork work = rested(50_000, 1e-5, 5);
    DoseRun first = (DoseRun) DoseRun.begin(PLANNED).step(work);
    assertEquals(1, first.given());
    assertTrue(work.pulse.open());
    assertTrue(first.plan().isFirst());
    assertEquals(305, first.plan().restSampleK(), 1e-9, "dosing begins from here");
  }

  @Test
  void aPulseThatShowsNeitherStepNorHeatIsReportedAfterAMinuteAndAHalf() {
    TickWork work = rested(50_000, 0, 0);
    StepRun waits = new DoseRun(PLANNED, 3, 89.75, "", plan(99, 0.1)).step(work);
    assertEquals("no sign of the last pulse yet", waitingFor(waits));
    assertEquals(AlarmState.NORMAL, stateOf(InterlockTable.NO_PRESSURE_STEP, work));
    new DoseRun(PLANNED, 3, 90, "", plan(99, 0.1)).step(work);
    assertEquals(AlarmState.UNACKNOWLEDGED, stateOf(InterlockTable.NO_PRESSURE_STEP, work));
    assertFalse(work.pulse.open());
  }

  private AlarmState stateOf(String alarm, TickWork work) {
    return work.alarms.state(AlarmBoard.indexOf(alarm, bench.plan.interlocks()));
  }

  @Test
  void theHeatOfTheLastPulseMustBePastItsPeakUnlessAllIsSettled() {
    TickWork warm = rested(50_000, 0, 1.95);
    assertEquals(
        "heat of the last pulse not past its peak",
        waitingFor(after(PLANNED, plan(900, 2)).step(warm)));
    // As warm, but not warmer than when the pulse began, and without uptake: that was all of it.
    TickWork settled = rested(50_000, 0, 1.95);
    settled.heat = settled.heat.marked();
    assertEquals("", waitingFor(after(PLANNED, plan(900, 2)).step(settled)));
    TickWork taking = rested(50_000, 1e-6, 1.95);
    taking.heat = taking.heat.marked();
    assertEquals(
        "heat of the last pulse not past its peak",
        waitingFor(after(PLANNED, plan(900, 2)).step(taking)));
  }

  /** At 4.9 K of 6 K no room is left, for 4.92 K are aimed at. */
  @Test
  void aSampleThatIsTooWarmForAPulseWaits() {
    TickWork work = rested(50_000, 0, 4.9);
    assertEquals(
        "too warm for the next planned pulse",
        waitingFor(after(PLANNED, plan(900, 5.3)).step(work)));
    assertFalse(work.pulse.open());
  }

  @Test
  void thePulseWaitsUntilTheUptakeAfterTheLastOneIsMeasured() {
    TickWork work = rested(50_000, 0, 0.5);
    GasByHand gas = new GasByHand(bench.plan, 7e-3).rest(10, 0);
    work.gas = gas.account;
    assertEquals("uptake not yet measured", waitingFor(after(PLANNED, plan(900, 2)).step(work)));
    assertEquals("uptake not yet measured", waitingFor(after(FIXED, null).step(work)));
  }

  /** 0.5 Pa/s of 0.33 L at 295 K are 67 nmol/s. */
  @Test
  void aPulseOfOneSizeWaitsForHeatAndUptake() {
    double paPerMol = 8.314462618 / ((TestRig.HOT_M3 + TestRig.COLD_M3) / 295);
    TickWork hot = rested(50_000, 0, 0.6);
    assertEquals("heat not settled", waitingFor(after(FIXED, null).step(hot)));
    TickWork taking = rested(50_000, 0.55 / paPerMol, 0.4);
    assertEquals("uptake not slowed", waitingFor(after(FIXED, null).step(taking)));
    TickWork slowed = rested(50_000, 0.45 / paPerMol, 0.4);
    assertEquals("", waitingFor(after(FIXED, null).step(slowed)));
    assertTrue(slowed.pulse.open());
  }

  /** A planned pulse is at least 100 Pa: nearer than that to the end the vessel is full. */
  @Test
  void aFullVesselEndsDosingOnceHeatAndUptakeAreOver() {
    assertEquals(
        "heat not settled", waitingFor(after(PLANNED, plan(900, 2)).step(rested(89_950, 0, 0.6))));
    assertEquals(
        "uptake not slowed",
        waitingFor(after(PLANNED, plan(900, 2)).step(rested(89_950, 1e-6, 0.1))));
    StepRun done = after(PLANNED, plan(900, 2)).step(rested(89_950, 0, 0.1));
    assertTrue(done.doing().startsWith("3 pulses, at "), done.doing());
    // Warmer than at rest by a slow drift that the watch on the pulse does not see.
    TickWork drifted = rested(89_950, 0, 0.6);
    drifted.heat = drifted.heat.marked();
    assertEquals("heat not settled", waitingFor(after(PLANNED, plan(900, 2)).step(drifted)));
    TickWork notFull = rested(89_800, 0, 0.1);
    after(PLANNED, plan(900, 2)).step(notFull);
    assertEquals(200, notFull.pulse.toPa() - notFull.pulse.fromPa(), 1, "what is missing");
    TickWork fixed = rested(89_950, 0, 0.1);
    assertFalse(after(FIXED, null).step(fixed) instanceof StepRun.Done, "50 Pa are missing");
    assertTrue(fixed.pulse.open());
  }

  @Test
  void aWaitOverItsLongestIsReportedWithItsReason() {
    Step.Dose impatient =
        new Step.Dose(TestSteps.unattended("Dose"), 1500, 90_000, 50, 0.5, 0.5, 20, 40);
    TickWork work = rested(50_000, 0, 2);
    new DoseRun(impatient, 3, 39.75, "", null).step(work);
    assertEquals(AlarmState.NORMAL, stateOf(InterlockTable.STEP_OVERDUE, work));
    new DoseRun(impatient, 3, 40, "", null).step(work);
    assertEquals(AlarmState.UNACKNOWLEDGED, stateOf(InterlockTable.STEP_OVERDUE, work));
  }

  @Test
  void afterAHoldTheWaitBeginsAnewAndThePlanIsKept() {
    DosePlan plan = plan(900, 2);
    DoseRun again = (DoseRun) new DoseRun(PLANNED, 3, 40, "shortest wait", plan).reentered();
    assertEquals(3, again.given());
    assertEquals(0, again.waitedS());
    assertSame(plan, again.plan());
  }

  @Test
  void itSaysWhetherThePulsesArePlannedAndWhatTheyWaitFor() {
    assertEquals(
        "planned oxygen pulse 3 of at most 50, waiting: shortest wait",
        new DoseRun(PLANNED, 3, 0, "shortest wait", null).doing());
    assertEquals("oxygen pulse 3 of at most 50", new DoseRun(FIXED, 3, 0, "", null).doing());
  }
}
