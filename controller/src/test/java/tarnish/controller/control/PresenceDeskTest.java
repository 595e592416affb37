package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Limits;

/** Coming, leaving and handing over: what is taken, and what is refused with which words. */
class PresenceDeskTest {
  private final ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1)).start();

  private String refusal(Request request) {
    bench.tick(request);
    return bench.last.events().stream()
        .filter(Event.RequestRefused.class::isInstance)
        .map(Event::sentence)
        .findFirst()
        .orElse("");
  }

  private Presence presence() {
    return bench.state.presence();
  }

  @Test
  void aCheckInLastsToTheTick() {
    assertEquals("", refusal(new Request.CheckIn("Bo", 0.01)));
    assertTrue(presence().attended());
    bench.forSeconds(35.75);
    assertTrue(presence().attended());
    bench.tick();
    assertFalse(presence().attended());
    assertTrue(presence().overdue());
    assertEquals("Bo", presence().by());
  }

  @Test
  void aCheckInMayLastTwelveHoursAndNotLonger() {
    assertEquals("", refusal(new Request.CheckIn("Bo", 12)));
    assertTrue(refusal(new Request.CheckIn("Bo", 12.01)).contains("at most 12 hours"));
    assertTrue(refusal(new Request.CheckIn("Bo", 0)).contains("more than 0"));
  }

  @Test
  void whoIsThereMayLengthenTheirStayAndAnotherMustWaitForAHandOver() {
    refusal(new Request.CheckIn("Bo", 0.01));
    bench.forSeconds(30);
    assertEquals("", refusal(new Request.CheckIn("Bo", 1)));
    bench.forSeconds(60);
    assertTrue(presence().attended());
    assertTrue(refusal(new Request.CheckIn("Cy", 1)).contains("Bo is checked in"));
  }

  @Test
  void whoIsOverdueIsReplacedByWhoeverComes() {
    refusal(new Request.CheckIn("Bo", 0.01));
    bench.forSeconds(40);
    assertEquals("", refusal(new Request.CheckIn("Cy", 1)));
    assertEquals("Cy", presence().by());
  }

  @Test
  void aHandOverNeedsTheOneWhoIsThereAndAnotherWithAName() {
    assertTrue(refusal(new Request.HandOver("Bo", "Cy", 1)).contains("Only who is checked in"));
    refusal(new Request.CheckIn("Bo", 1));
    assertTrue(refusal(new Request.HandOver("Cy", "Bo", 1)).contains("Only who is checked in"));
    assertTrue(refusal(new Request.HandOver("Bo", " ", 1)).contains("another person"));
    assertTrue(refusal(new Request.HandOver("Bo", "Bo", 1)).contains("another person"));
    assertTrue(refusal(new Request.HandOver("Bo", "Cy", 13)).contains("at most 12 hours"));
    assertEquals("Bo", presence().by());
    assertEquals("", refusal(new Request.HandOver("Bo", "Cy", 2)));
    assertEquals("Cy", presence().by());
    assertEquals(bench.millis + 2 * 3_600_000, presence().untilMillis());
  }

  @Test
  void nobodyCannotLeave() {
    assertTrue(refusal(new Request.CheckOut("Bo")).contains("Nobody is checked in"));
  }

  @Test
  void anyoneMayCheckOutWhoIsThere() {
    refusal(new Request.CheckIn("Bo", 1));
    assertEquals("", refusal(new Request.CheckOut("Cy")));
    assertEquals("", presence().by());
  }

  @Test
  void nobodyLeavesABenchAboveItsUnattendedLimits() {
    refusal(new Request.CheckIn("Bo", 1));
    bench.set(Channel.SAMPLE_TEMPERATURE, 834);
    assertTrue(refusal(new Request.CheckOut("Bo")).contains("above its unattended limits"));
    bench.set(Channel.SAMPLE_TEMPERATURE, 295).set(Channel.OVEN_TEMPERATURE, 924);
    assertTrue(refusal(new Request.CheckOut("Bo")).contains("above its unattended limits"));
    bench.set(Channel.OVEN_TEMPERATURE, 295).pressurePa(107_000);
    assertTrue(refusal(new Request.CheckOut("Bo")).contains("above its unattended limits"));
    bench.pressurePa(105_000);
    assertEquals("", refusal(new Request.CheckOut("Bo")));
  }

  @Test
  void anOverdueCheckInIsEndedEvenAboveTheLimits() {
    refusal(new Request.CheckIn("Bo", 0.01));
    bench.forSeconds(40);
    bench.pressurePa(107_000);
    assertEquals("", refusal(new Request.CheckOut("Cy")));
  }

  @Test
  void exactlyAtTheUnattendedLimitsABenchMayBeLeft() {
    TestRig rig = new TestRig();
    rig.unattended = new Limits(830, 920, 413.15, 106_000, 6 / 60.0, 2000);
    ControlBench atLimits =
        new ControlBench(rig.build(), TestSteps.recipe(TestSteps.ramp(400, 0.1)));
    atLimits.tick(new Request.CheckIn("Bo", 1));
    atLimits.set(Channel.SAMPLE_TEMPERATURE, 830).set(Channel.OVEN_TEMPERATURE, 920);
    atLimits.pressurePa(106_000).tick(new Request.CheckOut("Bo"));
    assertEquals("", atLimits.whyRefused());
    assertFalse(atLimits.state.presence().attended());
  }

  @Test
  void whereNoReadingCanBeBelievedNobodyIsKeptAtTheBench() {
    refusal(new Request.CheckIn("Bo", 1));
    bench.bad(Channel.SAMPLE_TEMPERATURE).pressurePa(107_000);
    assertEquals("", refusal(new Request.CheckOut("Bo")));
  }

  @Test
  void comingHandingOverAndLeavingAreRecordedWithTheirTimes() {
    refusal(new Request.CheckIn("Bo", 2));
    assertTrue(bench.said().contains("Bo is checked in for 2 h"), bench.said());
    refusal(new Request.HandOver("Bo", "Cy", 0.5));
    assertTrue(bench.said().contains("Cy takes over from Bo for 30 min"), bench.said());
    refusal(new Request.CheckOut("Di"));
    assertTrue(bench.said().contains("Cy is checked out"), bench.said());
    assertFalse(bench.said().contains("Di"), "a step that needs nobody goes on");
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void whoLeavesAStepThatNeedsAPersonPausesItAndTheReasonIsRecorded() {
    Step attended = new Step.Ramp(TestSteps.attended("Ramp"), 500, 0.1);
    ControlBench watched = ControlBench.with(attended).start().forSeconds(10);
    watched.tick(new Request.CheckOut(ControlBench.PERSON));
    assertEquals(BatchState.PAUSED, watched.phase());
    assertTrue(
        watched.said().contains("Ada has checked out; the step needs a person"), watched.said());
  }
}
