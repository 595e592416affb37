package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

/** A soak that was rehearsed at 295 to 305 K, 400 to 600 mbar and up to 0.2 mmol of uptake. */
class ExpectationTest {
  private static final double[] BAND = {295, 305, 40_000, 60_000, 0, 2e-4};

  private static ExpectedCourse.Segment segment(int position, int visit, double[]... bounds) {
    return new ExpectedCourse.Segment(position, visit, 60, bounds);
  }

  private static final ExpectedCourse COURSE =
      new ExpectedCourse(List.of(segment(0, 1, BAND), segment(0, 3, BAND), segment(2, 1, BAND)));

  private final ControlBench bench =
      ControlBench.with(TestSteps.soak(300, 1e6, 5), TestSteps.evacuate(100), TestSteps.cool(300));

  private Expectation expectation = Expectation.of(3).expecting(COURSE);
  private double stepS;

  private TickWork work(double sampleK, double pressurePa) {
    bench.set(Channel.SAMPLE_TEMPERATURE, sampleK).pressurePa(pressurePa);
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    work.phase = BatchState.RUNNING;
    work.run = new SoakRun(TestSteps.soak(300, 1e6, 5), 1, 0);
    work.tickS = 1;
    stepS += 1;
    work.stepS = stepS;
    return work;
  }

  /** So many seconds of the soak, and what was said in them. */
  private List<Event> soak(int seconds, double sampleK, double pressurePa) {
    List<Event> said = new java.util.ArrayList<>();
    for (int i = 0; i < seconds; i++) {
      TickWork work = work(sampleK, pressurePa);
      expectation = expectation.step(work);
      said.addAll(work.events());
    }
    return said;
  }

  @Test
  void aBatchThatStaysInItsBandIsNotRemarkedUponUpToTheEdges() {
    assertEquals(List.of(), soak(300, 300, 50_000));
    assertEquals(List.of(), soak(300, 295, 40_000));
    assertEquals(List.of(), soak(300, 305, 60_000));
    assertEquals(0, expectation.outsideS());
    assertFalse(expectation.told());
  }

  @Test
  void aBandThatWasLeftForTwoMinutesIsToldOnce() {
    soak(10, 300, 50_000);
    assertEquals(List.of(), soak(119, 306, 50_000));
    List<Event> said = soak(1, 306, 50_000);
    assertEquals(
        "Not as rehearsed: the sample temperature is "
            + Words.temperature(306)
            + ", expected "
            + Words.temperature(295)
            + " to "
            + Words.temperature(305)
            + ". Look whether the charge, the oven or the gas is other than the recipe says.",
        ((Event.Advisory) said.get(0)).sentence());
    assertTrue(expectation.told());
    assertEquals(List.of(), soak(300, 306, 50_000));
    assertEquals(120, expectation.outsideS(), "no longer than that is remembered");
  }

  @Test
  void whatCameBackForAsLongAsItWasAwayIsToldToo() {
    soak(1, 300, 50_000);
    soak(200, 294, 50_000);
    assertEquals(List.of(), soak(119, 300, 50_000));
    List<Event> said = soak(1, 300, 50_000);
    assertEquals(List.of(new Event.Advisory("The batch is back where it was expected.")), said);
    assertFalse(expectation.told());
    assertEquals(List.of(), soak(60, 300, 50_000));
  }

  @Test
  void aPassingDisturbanceRunsBackAndIsNotToldOf() {
    soak(1, 300, 50_000);
    for (int i = 0; i < 10; i++) {
      assertEquals(List.of(), soak(100, 300, 61_000));
      assertEquals(List.of(), soak(100, 300, 50_000));
    }
    assertEquals(0, expectation.outsideS());
    Expectation before = expectation;
    soak(1, 300, 50_000);
    assertSame(before, expectation, "a quiet tick makes nothing new");
  }

  @Test
  void thePressureIsToldWithItsOwnBand() {
    soak(1, 300, 50_000);
    String said = ((Event.Advisory) soak(120, 300, 39_000).get(0)).sentence();
    assertTrue(
        said.startsWith(
            "Not as rehearsed: the vessel pressure is "
                + Words.pressure(39_000)
                + ", expected "
                + Words.pressure(40_000)
                + " to "
                + Words.pressure(60_000)),
        said);
  }

  @Test
  void theUptakeIsToldInMillimolesAndALittleLessThanNothingIsNothing() {
    GasByHand gas = new GasByHand(bench.plan, 6e-3).rest(60, 0).rest(250, 1e-6);
    soak(1, 300, 50_000);
    String said = "";
    for (int i = 0; i < 120; i++) {
      TickWork work = work(300, 50_000);
      work.gas = gas.account;
      expectation = expectation.step(work);
      said = work.events().isEmpty() ? "" : work.events().get(0).sentence();
    }
    assertTrue(
        said.startsWith("Not as rehearsed: the uptake is 0.25 mmol, expected 0.00 mmol to 0.20"),
        said);
    gas.rest(500, -1e-6);
    assertTrue(gas.account.uptakeMol() < 0);
    expectation = Expectation.of(3).expecting(COURSE);
    stepS = 0;
    for (int i = 0; i < 300; i++) {
      TickWork work = work(300, 50_000);
      work.gas = gas.account;
      expectation = expectation.step(work);
      assertEquals(List.of(), work.events());
    }
  }

  @Test
  void onlyStepsThatTakeTheirTimeAreJudged() {
    Step[] judged = {
      new Step.Dose(TestSteps.unattended("Dose"), 1000, 90_000, 50, 0.5, 0.5, 20, 600),
      TestSteps.ramp(300, 0.1),
      TestSteps.soak(300, 1e6, 5),
      TestSteps.cool(300)
    };
    for (Step step : judged) {
      assertTrue(tellsOf(step), step.kind());
    }
    assertFalse(tellsOf(TestSteps.evacuate(100)));
    assertFalse(tellsOf(TestSteps.leakTest(60, 600, 0.1)));
    assertFalse(tellsOf(TestSteps.ask()));
  }

  private static boolean tellsOf(Step step) {
    ControlBench bench = ControlBench.with(step);
    Expectation now = Expectation.of(1).expecting(COURSE);
    for (int i = 1; i <= 200; i++) {
      bench.set(Channel.SAMPLE_TEMPERATURE, 320);
      TickWork work = new TickWork(bench.plan, bench.state);
      work.readings = bench.readings;
      work.phase = BatchState.RUNNING;
      work.run = new StepRun.Done("");
      work.tickS = 1;
      work.stepS = i;
      now = now.step(work);
    }
    return now.told();
  }

  @Test
  void aStepThatWasInterruptedIsNotJudgedAnyMore() {
    soak(10, 300, 50_000);
    TickWork paused = work(300, 50_000);
    paused.phase = BatchState.PAUSED;
    expectation = expectation.step(paused);
    assertFalse(expectation.undisturbed());
    assertSame(expectation, expectation.step(paused), "and stays so");
    assertEquals(List.of(), soak(300, 320, 50_000));
    TickWork between = work(300, 50_000);
    between.run = null;
    stepS = 0;
    soak(1, 300, 50_000);
    assertTrue(expectation.undisturbed(), "a step that begins is");
    expectation = expectation.step(between);
    assertTrue(expectation.undisturbed(), "so is one that just ended");
    assertEquals(0, expectation.outsideS());
  }

  @Test
  void whatIsNotBelievedIsNotCompared() {
    soak(10, 300, 50_000);
    for (int i = 0; i < 300; i++) {
      TickWork work = work(320, 50_000);
      work.readings.bad(Channel.OVEN_TEMPERATURE, BadReason.STALE);
      expectation = expectation.step(work);
    }
    assertFalse(expectation.told());
  }

  @Test
  void everyVisitOfAStepIsCountedAndComparedWithItsOwn() {
    Expectation fresh = Expectation.of(3);
    assertEquals(-1, fresh.position());
    TickWork begin = work(300, 50_000);
    begin.stepS = 1;
    Expectation first = fresh.expecting(COURSE).step(begin);
    assertArrayEquals(new int[] {1, 0, 0}, first.visits());
    assertSame(COURSE.segments().get(0), first.segment());
    Expectation second = first.step(begin);
    assertArrayEquals(new int[] {2, 0, 0}, second.visits());
    assertSame(COURSE.segments().get(0), second.segment(), "of the last that was rehearsed");
    Expectation third = second.step(begin);
    assertSame(COURSE.segments().get(1), third.segment());
    assertSame(COURSE.segments().get(1), third.step(begin).segment());
    TickWork cooling = work(300, 50_000);
    cooling.cursor = cooling.cursor.at(2);
    assertEquals(2, third.step(cooling).position());
    assertSame(COURSE.segments().get(2), third.step(cooling).segment());
    TickWork pumping = work(300, 50_000);
    pumping.cursor = pumping.cursor.at(1);
    assertNull(third.step(pumping).segment(), "nothing was rehearsed of it");
    assertNull(fresh.step(begin).segment(), "nothing is expected at all");
  }

  @Test
  void aRehearsalThatComesLateIsTakenUpInTheStepThatRuns() {
    TickWork begin = work(300, 50_000);
    begin.stepS = 1;
    Expectation running = Expectation.of(3).step(begin);
    Expectation now = running.expecting(COURSE);
    assertSame(COURSE.segments().get(0), now.segment());
    assertTrue(now.undisturbed());
    assertNull(Expectation.of(3).expecting(COURSE).segment(), "no step has begun");
  }

  @Test
  void aSegmentKnowsTheBoundsOfEachMomentAndOfItsEnd() {
    double[] first = {1, 2, 3, 4, 5, 6};
    double[] last = {7, 8, 9, 10, 11, 12};
    ExpectedCourse.Segment two = segment(0, 1, first, last);
    assertEquals(120, two.durationS());
    assertSame(first, two.at(0));
    assertSame(first, two.at(59.9));
    assertSame(last, two.at(60));
    assertSame(last, two.at(1e6));
    assertSame(first, two.at(-70));
  }

  @Test
  void aCourseIsKeptAsTextAndReadBack() {
    double[] a = {295, 305.5, 40_000, 60_000, 0, 2e-4};
    double[] b = {296.1, 306, 41_000, 61_000, -1e-6, 3e-4};
    ExpectedCourse course = new ExpectedCourse(List.of(segment(0, 1, a, b), segment(4, 2, b)));
    ExpectedCourse read = ExpectedCourse.parse(course.text());
    assertEquals(2, read.segments().size());
    assertEquals(4, read.segments().get(1).position());
    assertEquals(2, read.segments().get(1).visit());
    assertEquals(60, read.segments().get(0).everyS());
    assertArrayEquals(a, read.segments().get(0).bounds()[0]);
    assertArrayEquals(b, read.segments().get(0).bounds()[1]);
    assertArrayEquals(b, read.segments().get(1).bounds()[0]);
    assertEquals(0, ExpectedCourse.parse("\n \n").segments().size());
  }

  @Test
  void aTextThatIsCutOffOrTakesNoTimeIsRefused() {
    for (String wrong :
        new String[] {"0 1 60.000", "0 1 60.000 1 2 3 4 5", "0 1 60 1 2 3 4 5 6 7"}) {
      IllegalArgumentException why =
          assertThrows(IllegalArgumentException.class, () -> ExpectedCourse.parse(wrong));
      assertTrue(why.getMessage().contains("cut off"), why.getMessage());
    }
    IllegalArgumentException why =
        assertThrows(
            IllegalArgumentException.class, () -> ExpectedCourse.parse("0 1 0.000 1 2 3 4 5 6"));
    assertTrue(why.getMessage().contains("needs time"), why.getMessage());
  }
}
