package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Defeat;
import tarnish.shared.rig.Switch;

/** Shelving and defeating: what is taken, what is refused with which words, and when it ends. */
class AlarmDeskTest {
  private static final String DOOR = "door open";

  private ControlBench bench;

  @BeforeEach
  void heatingWithBoAtABenchWhoseDoorMayBeDefeatedForTenMinutes() {
    TestRig rig = new TestRig();
    rig.defeat = new Defeat(List.of(DOOR), 600);
    bench = ControlBench.seeing(rig.build(), TestSteps.ramp(700, 0.1));
    bench.tick(new Request.CheckIn("Bo", 1));
    bench.start().forSeconds(10);
  }

  private String refusal(Request request) {
    bench.tickAlone(request);
    return bench.last.events().stream()
        .filter(Event.RequestRefused.class::isInstance)
        .map(Event::sentence)
        .findFirst()
        .orElse("");
  }

  private static Request shelve(double minutes, String reason) {
    return new Request.Shelve("Bo", DOOR, minutes, reason);
  }

  private static Request defeat(double minutes, String reason) {
    return new Request.Defeat("Bo", DOOR, minutes, reason);
  }

  private boolean isShelved() {
    return bench.state.alarms().isShelved(bench.row(DOOR));
  }

  private boolean isDefeated() {
    return bench.state.alarms().isDefeated(bench.row(DOOR));
  }

  @Test
  void aShelvingIsRecordedWithPersonTimeAndReason() {
    assertEquals("", refusal(shelve(10, "hinge is being mended")));
    assertTrue(
        bench.said().contains("'door open' is shelved by Bo for 10 min: hinge is being mended"),
        bench.said());
    assertEquals(bench.millis + 600_000, bench.state.alarms().setAsideUntilMillis(bench.row(DOOR)));
  }

  @Test
  void aDefeatIsRecordedWithPersonTimeAndReason() {
    assertEquals("", refusal(defeat(5, "loading")));
    assertTrue(
        bench.said().contains("'door open' is DEFEATED by Bo for 5 min: loading"), bench.said());
    assertEquals(bench.millis + 300_000, bench.state.alarms().setAsideUntilMillis(bench.row(DOOR)));
  }

  @Test
  void aShelvingLastsEightHoursAtMostAndMoreThanNothing() {
    for (double minutes : new double[] {480.1, 0, -1, Double.NaN}) {
      assertTrue(refusal(shelve(minutes, "x")).contains("at most 480 minutes"), minutes + " min");
      assertFalse(isShelved());
    }
    assertEquals("", refusal(shelve(480, "x")));
    assertTrue(isShelved());
  }

  @Test
  void aDefeatLastsAsLongAsTheRigFileSaysAtMostAndMoreThanNothing() {
    for (double minutes : new double[] {10.1, 0, -1, Double.NaN}) {
      assertTrue(refusal(defeat(minutes, "x")).contains("at most 10 min"), minutes + " min");
      assertFalse(isDefeated());
    }
    assertEquals("", refusal(defeat(10, "x")));
    assertTrue(isDefeated());
  }

  @Test
  void neitherIsTakenWithoutAReason() {
    assertTrue(refusal(shelve(10, " ")).contains("'door open'. It needs a reason"));
    assertTrue(refusal(defeat(5, " ")).contains("'door open'. It needs a reason"));
    assertFalse(isShelved() || isDefeated());
  }

  @Test
  void highAlarmsAreNotShelvedTheFirstRowIncludedAndUnknownOnesAreSaidToBeUnknown() {
    for (String high : List.of("emergency stop", "runaway")) {
      String why = refusal(new Request.Shelve("Bo", high, 10, "x"));
      assertTrue(why.contains("'" + high + "'. An alarm of high priority cannot"), why);
    }
    String why = refusal(new Request.Shelve("Bo", "moon is full", 10, "x"));
    assertTrue(why.contains("There is no such alarm"), why);
  }

  @Test
  void onlyWhatTheRigFileNamesIsDefeatedAndOnlyWithAPersonThere() {
    for (String other : List.of("emergency stop", "sample too hot", "moon is full")) {
      String why = refusal(new Request.Defeat("Bo", other, 5, "x"));
      assertTrue(why.contains("'" + other + "'. The rig file does not allow it"), why);
    }
    bench.deserted();
    assertTrue(refusal(defeat(5, "loading")).contains("check in first"));
    assertFalse(isDefeated());
  }

  @Test
  void aShelvingIsEndedByAPersonOnceAndIsRecorded() {
    refusal(shelve(10, "x"));
    assertEquals("", refusal(new Request.Unshelve("Cy", DOOR)));
    assertTrue(bench.said().contains("is no longer shelved, by Cy"), bench.said());
    assertFalse(isShelved());
    for (String not : List.of(DOOR, "emergency stop", "moon is full")) {
      String why = refusal(new Request.Unshelve("Cy", not));
      assertTrue(why.contains("unshelve '" + not + "'. It is not shelved"), why);
    }
  }

  @Test
  void aDefeatIsEndedByAPersonOnceAndTheInterlockActsAtOnce() {
    refusal(defeat(5, "loading"));
    bench.set(Channel.DOOR, 0).forSeconds(2);
    assertTrue(bench.isOn(Switch.HEATER), "it does not act while it is defeated");
    assertEquals("", refusal(new Request.Enforce("Cy", DOOR)));
    assertTrue(bench.said().contains("is enforced again, by Cy"), bench.said());
    assertFalse(bench.isOn(Switch.HEATER));
    for (String not : List.of(DOOR, "emergency stop", "moon is full")) {
      String why = refusal(new Request.Enforce("Cy", not));
      assertTrue(why.contains("enforce '" + not + "'. It is enforced"), why);
    }
  }

  @Test
  void aShelvingEndsInTheTickOfItsTimeAndSaysSo() {
    refusal(shelve(1, "x"));
    bench.forSeconds(59.75);
    assertTrue(isShelved());
    bench.tick();
    assertFalse(isShelved());
    assertTrue(
        bench.said().contains("'door open' is no longer shelved: its time is over"), bench.said());
  }

  @Test
  void aDefeatEndsInTheTickOfItsTimeAndSaysSo() {
    refusal(defeat(1, "loading"));
    bench.forSeconds(59.75);
    assertTrue(isDefeated());
    bench.tick();
    assertFalse(isDefeated());
    assertTrue(
        bench.said().contains("'door open' is enforced again: its time is over"), bench.said());
  }

  @Test
  void nothingStaysDefeatedWithNobodyThereButAShelvedAlarmStaysShelved() {
    refusal(defeat(5, "loading"));
    refusal(shelve(10, "x"));
    bench.tick(new Request.CheckOut("Bo"));
    bench.tick();
    assertFalse(isDefeated());
    assertTrue(
        bench.said().contains("'door open' is enforced again: nobody is checked in"), bench.said());
    assertTrue(isShelved());
  }

  @Test
  void aDefeatedInterlockIsAnAlarmOfItsOwnAndAShelvedOneIsNot() {
    refusal(shelve(10, "x"));
    bench.ticks(2);
    assertEquals(AlarmState.NORMAL, bench.alarm("interlock defeated"));
    refusal(defeat(1, "loading"));
    bench.tick();
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm("interlock defeated"));
    bench.forSeconds(62);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm("interlock defeated"));
  }

  @Test
  void aRequestIsTakenByOneDeskOnly() {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    assertTrue(AlarmDesk.take(shelve(10, "x"), work));
    assertFalse(AlarmDesk.take(new Request.CheckOut("Bo"), work));
    assertTrue(PresenceDesk.take(new Request.CheckOut("Bo"), work));
    assertFalse(PresenceDesk.take(shelve(10, "x"), work));
  }
}
