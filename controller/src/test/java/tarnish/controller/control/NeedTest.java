package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

class NeedTest {
  private static List<Need> of(ControlBench bench) {
    return Need.of(bench.plan, bench.state, Outlook.from(bench.plan, bench.state, bench.readings));
  }

  private static List<Need.Kind> kinds(ControlBench bench) {
    return of(bench).stream().map(Need::kind).toList();
  }

  @Test
  void nothingIsNeededWhileARecipeRunsThatNeedsNobody() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 600, 5));
    bench.start().forSeconds(10);
    assertEquals(List.of(), of(bench));
  }

  @Test
  void theNextVisitIsToldWithItsTime() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 600, 5), TestSteps.ask());
    bench.start().forSeconds(100);
    Need visit =
        of(bench).stream().filter(need -> need.kind() == Need.Kind.VISIT).findFirst().orElseThrow();
    SoakRun soaking = (SoakRun) bench.state.run();
    assertEquals(bench.millis / 1000.0 + 600 - soaking.inBandS(), visit.byS(), 1e-9);
  }

  @Test
  void anOpenQuestionIsWantedNowAndNoVisitBesideIt() {
    ControlBench bench = ControlBench.with(TestSteps.ask(), TestSteps.ask());
    bench.start().forSeconds(2);
    Need question = of(bench).get(0);
    assertEquals(Need.Kind.QUESTION, question.kind());
    assertEquals(Need.NOW, question.byS());
    assertTrue(kinds(bench).stream().noneMatch(kind -> kind == Need.Kind.VISIT));
  }

  @Test
  void aPauseWaitsForADecision() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 600, 5));
    bench.start().forSeconds(10);
    bench.tick(new Request.Pause("Ada"));
    bench.forSeconds(5);
    assertEquals(BatchState.PAUSED, bench.phase());
    assertEquals(List.of(Need.Kind.DECISION), kinds(bench));
  }

  @Test
  void anAlarmComesBeforeAllElseAndAHoldAsksForADecisionOnceItIsReset() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 600, 5));
    bench.start().forSeconds(10);
    bench.set(Channel.EMERGENCY_STOP, 0).forSeconds(5);
    Need alarm = of(bench).get(0);
    assertEquals(Need.Kind.ALARM, alarm.kind());
    assertEquals(Need.NOW, alarm.byS());
    String id = bench.events(Event.AlarmRaised.class).get(0).alarm();
    assertTrue(alarm.what().startsWith("Acknowledge " + id), alarm.what());
    assertFalse(
        kinds(bench).contains(Need.Kind.DECISION), "nothing to decide while the stop is pressed");
    bench.set(Channel.EMERGENCY_STOP, 1).forSeconds(5);
    bench.tick(new Request.Acknowledge("Ada", id));
    assertTrue(of(bench).get(0).what().startsWith("Reset " + id), of(bench).get(0).what());
    bench.tick(new Request.Reset("Ada", id, "released"));
    bench.forSeconds(2);
    assertEquals(BatchState.HELD, bench.phase());
    assertEquals(List.of(Need.Kind.DECISION), kinds(bench));
  }

  @Test
  void aCheckInSaysUntilWhenAndThatItHasRunOut() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 7200, 5));
    bench.start();
    bench.tick(new Request.CheckIn("Bo", 1));
    Need presence = of(bench).get(0);
    assertEquals(Need.Kind.PRESENCE, presence.kind());
    assertEquals(bench.millis / 1000.0 + 3600, presence.byS(), 1);
    bench.forSeconds(3610);
    presence = of(bench).get(0);
    assertEquals(Need.NOW, presence.byS());
    assertTrue(presence.what().contains("has run out"), presence.what());
  }

  @Test
  void soaksToComeHaveTheirTimes() {
    Step.Soak second = TestSteps.soak(395, 300, 3);
    ControlBench bench =
        ControlBench.with(TestSteps.soak(295, 600, 5), TestSteps.ramp(395, 0.1), second);
    bench.start().forSeconds(100);
    Outlook outlook = Outlook.from(bench.plan, bench.state, bench.readings);
    double rest = 600 - ((SoakRun) bench.state.run()).inBandS();
    double nowS = bench.millis / 1000.0;
    assertEquals(nowS + rest, outlook.soaks().get(0).toS(), 1e-6);
    assertEquals(nowS + rest + 1000, outlook.soaks().get(2).fromS(), 1e-6);
    assertEquals(nowS + rest + 1300, outlook.soaks().get(2).toS(), 1e-6);
  }
}
