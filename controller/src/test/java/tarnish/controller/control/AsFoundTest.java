package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;

class AsFoundTest {
  private static final String SHELL = "Tarnish";
  private static final String SEAL = "seal too hot";
  private static final String DOOR = "door open";

  private final ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1));

  private Optional<Request.TakeOver> found() {
    return AsFound.after(SHELL, bench.plan, bench.state);
  }

  private void newBatch(Request... requests) {
    bench.state = ControlState.initial(bench.plan);
    bench.millis = 0;
    bench.tickAlone(requests);
  }

  @Test
  void anEmptyRoomWithoutAnAlarmHasNothingToHandOver() {
    bench.deserted().ticks(10);
    assertEquals(Optional.empty(), found());
  }

  @Test
  void whoIsCheckedInStaysSoUntilTheSameMoment() {
    bench.tick(new Request.CheckIn("Ada", 1));
    bench.forSeconds(600);
    Request.TakeOver found = found().orElseThrow();
    assertEquals(new Presence("Ada", 3_000_000, false), found.presence());
    newBatch(found, new Request.Start("Ada"));
    assertEquals(BatchState.RUNNING, bench.phase());
    assertTrue(bench.state.presence().attended());
    assertEquals(
        new Event.PresenceChanged("Ada", "was checked in before"),
        bench.events(Event.PresenceChanged.class).get(1));
    bench.forSeconds(2999.5);
    assertTrue(bench.state.presence().attended());
    bench.forSeconds(0.5);
    assertFalse(bench.state.presence().attended());
  }

  @Test
  void theFirstTickIsJudgedByTheLimitsOfWhoIsThere() {
    double aloneMaxPa = bench.plan.rig().unattended().pressureMaxPa();
    bench.tick(new Request.CheckIn("Ada", 1));
    bench.pressurePa(aloneMaxPa + 500).ticks(20);
    newBatch(found().orElseThrow(), new Request.Start("Ada"));
    bench.ticks(20);
    assertEquals(BatchState.RUNNING, bench.phase());
    assertEquals(List.of(), bench.events(Event.AlarmRaised.class));
  }

  @Test
  void alarmsAndTheOneThatCameFirstAreHandedOver() {
    bench.tick(new Request.Start("Ada"));
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.SEAL_TEMPERATURE, 295).tick(new Request.Abort("Ada"));
    bench.forSeconds(60);
    bench.tick(new Request.Acknowledge("Ada", SEAL));
    Request.TakeOver found = found().orElseThrow();
    assertEquals(AlarmState.LATCHED_ACKNOWLEDGED, found.alarms().get(SEAL));
    assertEquals(SEAL, found.firstOut());
    newBatch(found);
    assertEquals(AlarmState.LATCHED_ACKNOWLEDGED, bench.alarm(SEAL));
    assertTrue(bench.state.alarms().isFirstOut(AlarmBoard.indexOf(SEAL, bench.plan.interlocks())));
    assertTrue(
        bench
            .events(Event.AlarmChanged.class)
            .contains(
                new Event.AlarmChanged(
                    SEAL, AlarmState.LATCHED_ACKNOWLEDGED, "as the batch found it")));
  }

  @Test
  void itIsTakenInTheFirstTickOnlyAndWhatTheTableDoesNotHaveIsLeft() {
    Request.TakeOver odd =
        new Request.TakeOver(
            SHELL,
            Presence.NOBODY,
            Map.of(DOOR, AlarmState.LATCHED_ACKNOWLEDGED, "no such row", AlarmState.ACKNOWLEDGED),
            "no such row");
    bench.ticks(2);
    bench.tick(odd);
    assertEquals(AlarmState.NORMAL, bench.alarm(DOOR));
    newBatch(odd);
    assertEquals(AlarmState.LATCHED_ACKNOWLEDGED, bench.alarm(DOOR));
  }
}
