package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/** What is refused where nobody stands at the bench, and what is not. */
class RequestDeskTest {
  private static final Step ATTENDED_RAMP = new Step.Ramp(TestSteps.attended("Ramp"), 700, 0.1);

  /** In the middle of a step that needs a person, whom nobody has seen since. */
  private static ControlBench pausedAlone(Step step) {
    ControlBench bench = ControlBench.with(step).start().forSeconds(10);
    bench.tick(new Request.Pause("Ada"));
    bench.forSeconds(1);
    assertEquals(BatchState.PAUSED, bench.phase());
    return bench.deserted();
  }

  @Test
  void aStepThatNeedsAPersonIsNotResumedByNobody() {
    ControlBench bench = pausedAlone(ATTENDED_RAMP);
    bench.tickAlone(new Request.Resume("Bo"));
    assertEquals(PresenceDesk.CHECK_IN_FIRST, bench.whyRefused());
    assertEquals(BatchState.PAUSED, bench.phase());
    bench.tickAlone(new Request.CheckIn("Bo", 1), new Request.Resume("Bo"));
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void aStepThatNeedsNobodyIsResumedFromAfar() {
    ControlBench bench = pausedAlone(TestSteps.ramp(700, 0.1));
    bench.tickAlone(new Request.Resume("Bo"));
    assertEquals(BatchState.RUNNING, bench.phase());
    assertTrue(bench.said().contains("Bo: resume"), bench.said());
  }

  /** The step has not begun: it waits for its person whether the batch was paused or not. */
  @Test
  void aBatchThatWaitsForAPersonGoesOnWaitingWhenResumedByNobody() {
    ControlBench bench = ControlBench.with(ATTENDED_RAMP).deserted().start().forSeconds(10);
    bench.tick(new Request.Pause("Ada"));
    bench.forSeconds(1);
    bench.tickAlone(new Request.Resume("Bo"));
    assertEquals("", bench.whyRefused());
    bench.forSeconds(10);
    assertEquals(BatchState.RUNNING, bench.phase());
    assertFalse(bench.isOn(Switch.HEATER));
  }

  private static ControlBench heldAndReset(Step step) {
    ControlBench bench = ControlBench.with(step).start().forSeconds(10);
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.SEAL_TEMPERATURE, 295).forSeconds(2);
    bench.tick(new Request.Reset("Ada", "seal too hot", "fan mended"));
    assertEquals(BatchState.HELD, bench.phase());
    return bench.deserted();
  }

  @Test
  void aStepThatNeedsAPersonIsNotRestartedByNobody() {
    ControlBench bench = heldAndReset(ATTENDED_RAMP);
    bench.tickAlone(new Request.Restart("Bo"));
    assertEquals(PresenceDesk.CHECK_IN_FIRST, bench.whyRefused());
    assertEquals(BatchState.HELD, bench.phase());
    ControlBench other = heldAndReset(TestSteps.ramp(700, 0.1));
    other.tickAlone(new Request.Restart("Bo"));
    assertEquals("", other.whyRefused());
    assertEquals(BatchState.RUNNING, other.phase());
  }

  @Test
  void aBatchThatIsNotHeldIsNotRestartedWhoeverIsThere() {
    ControlBench bench = pausedAlone(ATTENDED_RAMP);
    bench.tickAlone(new Request.Restart("Bo"));
    assertEquals("The batch is paused.", bench.whyRefused());
  }

  @Test
  void aTripIsNotResetByNobodyAndTheWordsSayWhatToDo() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1)).start().forSeconds(10);
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.SEAL_TEMPERATURE, 295).forSeconds(2);
    bench.tickAlone(new Request.Reset("Bo", "seal too hot", "fan mended"));
    assertEquals(PresenceDesk.CHECK_IN_FIRST, bench.whyRefused());
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm("seal too hot"));
  }

  @Test
  void aQuestionIsNotAnsweredByNobody() {
    ControlBench bench = ControlBench.with(TestSteps.ask(TestSteps.remark("colour"))).start();
    bench.forSeconds(2).deserted();
    assertNotNull(bench.state.question());
    Request answer = new Request.Answer("Bo", bench.state.questions(), Map.of(), "black");
    bench.tickAlone(answer);
    assertEquals(PresenceDesk.CHECK_IN_FIRST, bench.whyRefused());
    assertNotNull(bench.state.question());
    bench.tickAlone(new Request.CheckIn("Bo", 1), answer);
    assertTrue(bench.said().contains("Bo answered: black"), bench.said());
  }

  @Test
  void afterAPowerCutNobodyIsTakenToBeThere() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1)).start().forSeconds(10);
    bench.tick(new Request.CheckIn("Bo", 8));
    bench.tickAfterMillis(60_000, new Request.PowerReturned("service", 60));
    assertEquals("", bench.state.presence().by());
    assertTrue(bench.said().contains("Nobody was in control for 1 min"), bench.said());
  }

  @Test
  void theShellMayRaiseAnyRowOfTheTableTheFirstAsWell() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1)).start().forSeconds(10);
    assertEquals(0, bench.row("emergency stop"));
    bench.tick(new Request.ShellTrouble("service", "emergency stop", "Pressed at the page."));
    assertEquals("", bench.whyRefused());
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm("emergency stop"));
    assertEquals(BatchState.HELD, bench.phase());
    assertTrue(bench.said().contains("Pressed at the page."), bench.said());
  }

  @Test
  void fromWhenOnABatchIsComparedWithItsRehearsalIsRecorded() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1)).start();
    bench.tick(new Request.Expect("service", "0 1 60.000 290.0 300.0 49000 51000 0 1e-3"));
    assertTrue(bench.said().contains("Compared with its rehearsal from now on"), bench.said());
  }
}
