package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tarnish.sim.Fault;

class FaultRehearsalTest {
  private static final List<FaultRehearsal.Outcome> OUTCOMES =
      new FaultRehearsal(Demo.copper(), 1).run();

  private static FaultRehearsal.Outcome of(Fault fault) {
    Map<String, FaultRehearsal.Outcome> byFault =
        OUTCOMES.stream()
            .collect(Collectors.toMap(FaultRehearsal.Outcome::fault, Function.identity()));
    return byFault.get(fault.words());
  }

  @Test
  void theInterlockThatCatchesEachFaultIsNamed() {
    assertEquals("heater stuck on", of(Fault.HEATER_RELAY_WELDED).caughtBy());
    assertEquals("runaway", of(Fault.RUNAWAY).caughtBy());
    assertEquals("sample temperature lost", of(Fault.SAMPLE_THERMOCOUPLE_OPEN).caughtBy());
    assertEquals("held", of(Fault.HEATER_DEAD).endState());
  }

  /** No software opens a welded relay: the plant's own temperature says so. */
  @Test
  void whatTheInterlocksCannotHelpIsSaid() {
    FaultRehearsal.Outcome welded = of(Fault.HEATER_RELAY_WELDED);
    assertTrue(welded.ovenMarginK() < 0, "margin " + welded.ovenMarginK());
    assertTrue(FaultLines.sentence(welded).contains("HARD-WIRED"));
    assertFalse(FaultLines.sentence(of(Fault.DOOR_OPEN)).contains("HARD-WIRED"));
  }

  @Test
  void theWorstFaultComesFirst() {
    for (int i = 1; i < OUTCOMES.size(); i++) {
      assertTrue(OUTCOMES.get(i - 1).nearness() <= OUTCOMES.get(i).nearness());
    }
  }

  @Test
  void aFaultOfASensorThatTheRigLacksIsLeftOut() {
    assertEquals(null, of(Fault.SECOND_GAUGE_OPEN));
  }
}
