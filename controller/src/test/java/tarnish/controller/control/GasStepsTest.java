package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

class GasStepsTest {
  private static Step.Backfill fill(Step.Gas gas, int cycles) {
    return new Step.Backfill(TestSteps.unattended("Fill"), gas, 90_000, cycles, 500);
  }

  @Test
  void evacuatingEndsWhenTheGaugeAgreesForTwoSeconds() {
    ControlBench bench = ControlBench.with(TestSteps.evacuate(1000), TestSteps.ask());
    bench.start();
    assertTrue(bench.isOn(Switch.PUMP) && bench.isOn(Switch.VACUUM));
    for (int i = 0; i < 5; i++) {
      bench.pressurePa(990).ticks(7);
      bench.pressurePa(1010).tick();
      assertEquals(0, bench.state.cursor().position(), "one reading above starts anew");
      assertTrue(bench.isOn(Switch.VACUUM));
    }
    bench.pressurePa(1000).ticks(8);
    bench.pressurePa(1010).ticks(38);
    assertEquals(0, bench.state.cursor().position(), "pumps 10 s more, for the gauge's zero");
    bench.tick();
    assertEquals(1, bench.state.cursor().position());
    assertFalse(bench.isOn(Switch.PUMP) || bench.isOn(Switch.VACUUM));
  }

  @Test
  void aPauseStartsTheTwoSecondsAnew() {
    ControlBench bench = ControlBench.with(TestSteps.evacuate(1000), TestSteps.ask());
    bench.pressurePa(990).start().ticks(6);
    bench.tick(new Request.Pause("Ada"));
    assertTrue(bench.allOff());
    bench.tick(new Request.Resume("Ada"));
    bench.ticks(6 + 39);
    assertEquals(0, bench.state.cursor().position());
    bench.tick();
    assertEquals(1, bench.state.cursor().position());
  }

  @Test
  void aBackfillPumpsDownBeforeEveryFill() {
    for (Step.Gas gas : Step.Gas.values()) {
      Switch valve = gas == Step.Gas.OXYGEN ? Switch.OXYGEN : Switch.INERT;
      Switch other = gas == Step.Gas.OXYGEN ? Switch.INERT : Switch.OXYGEN;
      ControlBench bench = ControlBench.with(fill(gas, 3), TestSteps.ask());
      bench.start();
      for (int cycle = 0; cycle < 3; cycle++) {
        bench.pressurePa(10_000).tick();
        assertTrue(bench.isOn(Switch.PUMP) && bench.isOn(Switch.VACUUM));
        assertFalse(bench.isOn(valve));
        String doing = bench.state.run().doing();
        assertTrue(doing.endsWith((3 - cycle) + " fills to go"), doing);
        bench.pressurePa(500).ticks(2);
        assertTrue(bench.isOn(valve));
        assertFalse(bench.isOn(Switch.PUMP) || bench.isOn(Switch.VACUUM) || bench.isOn(other));
        assertTrue(bench.state.run().doing().contains(gas.words()));
        assertEquals(0, bench.state.cursor().position());
        bench.pressurePa(90_000).tick();
        assertFalse(bench.isOn(valve));
      }
      assertEquals(1, bench.state.cursor().position());
      assertEquals("filled to 900.0 mbar", bench.events(Event.StepEnded.class).get(0).how());
    }
  }

  @Test
  void everyWayBackIntoAFillPumpsDownFirst() {
    ControlBench bench = ControlBench.with(fill(Step.Gas.INERT, 2), TestSteps.ask());
    bench.pressurePa(400).start().ticks(2);
    bench.pressurePa(40_000).tick();
    assertTrue(bench.isOn(Switch.INERT));
    bench.tick(new Request.Pause("Ada"));
    bench.tick(new Request.Resume("Ada"));
    assertTrue(bench.isOn(Switch.VACUUM));
    assertFalse(bench.isOn(Switch.INERT));
  }
}
