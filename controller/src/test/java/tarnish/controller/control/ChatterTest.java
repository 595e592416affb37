package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Switch;

/**
 * Three and more alarms of one row within a minute are chattering (IEC 62682, ISA-18.2; the figure
 * from memory).
 */
class ChatterTest {
  private final ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1)).start();

  private List<Long> raisedMillis(double openS, double shutS, int times) {
    List<Long> raised = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      bench.set(Channel.DOOR, 0);
      watch(openS, raised);
      bench.set(Channel.DOOR, 1);
      watch(shutS, raised);
    }
    return raised;
  }

  private void watch(double seconds, List<Long> raised) {
    for (int i = 0; i < StrictMath.round(seconds / ControlBench.TICK_S); i++) {
      for (Event event : bench.tick().events()) {
        if (event instanceof Event.AlarmRaised) {
          raised.add(bench.millis);
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"0.5, 1", "0.75, 1.25", "2, 1", "1, 4", "3, 19", "0.5, 20"})
  void howeverRestlessACauseIsItsAlarmComesFourTimesAMinuteAtMost(double openS, double shutS) {
    List<Long> raised = raisedMillis(openS, shutS, (int) (600 / (openS + shutS)));
    assertFalse(raised.isEmpty());
    for (int i = 0; i + Chatter.MOST_IN_A_MINUTE < raised.size(); i++) {
      long within = raised.get(i + Chatter.MOST_IN_A_MINUTE) - raised.get(i);
      assertTrue(within >= 60_000, "five alarms within " + within + " ms");
    }
  }

  @Test
  void aSingleAlarmGoesWithItsUsualDelay() {
    bench.forSeconds(60);
    raisedMillis(5, 1, 1);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm("door open"));
    bench.forSeconds(30);
    assertTrue(bench.isOn(Switch.HEATER), "the heat comes back by itself");
  }

  @Test
  void theSecondOneSoonAfterIsHeldForTwentySeconds() {
    raisedMillis(5, 1, 1);
    raisedMillis(5, 0, 1);
    bench.set(Channel.DOOR, 1);
    bench.forSeconds(19.5);
    assertTrue(bench.alarm("door open") == AlarmState.UNACKNOWLEDGED);
    assertFalse(bench.isOn(Switch.HEATER), "a row that is held withholds what it withholds");
    bench.forSeconds(1);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm("door open"));
  }

  @Test
  void whatComesBackLateIsNoChatter() {
    raisedMillis(5, 25, 1);
    raisedMillis(5, 1, 1);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm("door open"));
  }
}
