package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import org.junit.jupiter.api.Test;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

class GateTest {
  private static final int ALL = (1 << Switch.values().length) - 1;
  private static final int HEARTBEAT = InterlockRow.bit(Switch.HEARTBEAT);

  /** Every demand with every set of withheld permits and both levels of the heartbeat. */
  @Test
  void anOutputIsOnOnlyIfItIsDemandedAndPermitted() {
    Outputs low = Outputs.OFF;
    Outputs high = Outputs.of(0, Switch.HEARTBEAT);
    for (int demand = 0; demand <= ALL; demand++) {
      if ((demand & HEARTBEAT) != 0) {
        continue; // Nobody demands the heartbeat: the gate makes it.
      }
      for (int withheld = 0; withheld <= ALL; withheld++) {
        int expected = demand & ~withheld;
        int beat = (withheld & HEARTBEAT) == 0 ? HEARTBEAT : 0;
        assertEquals(expected | beat, Gate.outputs(demand, withheld, 400, low).switches());
        assertEquals(expected, Gate.outputs(demand, withheld, 400, high).switches());
      }
    }
  }

  @Test
  void theHeaterDutyIsZeroWheneverTheHeaterIsWithheld() {
    for (int withheld = 0; withheld <= ALL; withheld++) {
      boolean heaterWithheld = (withheld & InterlockRow.bit(Switch.HEATER)) != 0;
      Outputs outputs = Gate.outputs(InterlockRow.bit(Switch.HEATER), withheld, 731, Outputs.OFF);
      assertEquals(heaterWithheld ? 0 : 731, outputs.heaterPerMille());
      assertEquals(!heaterWithheld, outputs.isOn(Switch.HEATER));
    }
  }

  @Test
  void theHeartbeatTogglesEveryTickInEveryState() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.05));
    boolean before = bench.tick().outputs().isOn(Switch.HEARTBEAT);
    bench.start();
    assertNotEquals(before, bench.isOn(Switch.HEARTBEAT));
    for (int i = 0; i < 40; i++) {
      before = bench.isOn(Switch.HEARTBEAT);
      bench.tick(i == 20 ? new Request[] {new Request.Abort("Ada")} : new Request[0]);
      assertNotEquals(before, bench.isOn(Switch.HEARTBEAT), "tick " + i);
    }
    assertEquals(BatchState.ABORTED, bench.phase());
  }
}
