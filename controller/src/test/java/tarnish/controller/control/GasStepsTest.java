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

  private static ControlBench evacuating(double shownPa) {
    ControlBench bench = ControlBench.with(TestSteps.evacuate(100), TestSteps.ask());
    return bench.pressurePa(shownPa).start();
  }

  private static boolean tellsOfTheGauge(ControlBench bench) {
    return bench.events(Event.Advisory.class).stream()
        .anyMatch(e -> e.sentence().startsWith("The gauge stands still at "));
  }

  /** Ultimate 30 Pa; zero within 50 Pa, standard uncertainty: three of it lead to 182 Pa. */
  @Test
  void aGaugeThatReadsTooHighWithinItsStatedZeroDoesNotKeepAPumpDownFromItsEnd() {
    ControlBench bench = evacuating(175).forSeconds(119);
    assertEquals(0, bench.state.cursor().position(), "it must stand still for two windows");
    assertTrue(bench.isOn(Switch.VACUUM));
    bench.forSeconds(2);
    assertEquals(1, bench.state.cursor().position());
    assertFalse(bench.isOn(Switch.PUMP) || bench.isOn(Switch.VACUUM));
    assertTrue(tellsOfTheGauge(bench));
    assertEquals(
        "at the pump's lowest, shown as 1.8 mbar",
        bench.events(Event.StepEnded.class).get(0).how());
  }

  @Test
  void aPressureThatNoStatedZeroExplainsIsPumpedOn() {
    ControlBench bench = evacuating(190).forSeconds(1800);
    assertEquals(0, bench.state.cursor().position());
    assertTrue(bench.isOn(Switch.VACUUM));
    assertFalse(tellsOfTheGauge(bench));
  }

  @Test
  void aPressureThatStillFallsIsPumpedOn() {
    ControlBench bench = evacuating(180);
    for (double shownPa = 180; shownPa > 105; shownPa -= 0.2 * ControlBench.TICK_S) {
      bench.pressurePa(shownPa).tick();
      assertEquals(0, bench.state.cursor().position(), "at " + shownPa + " Pa");
    }
    assertFalse(tellsOfTheGauge(bench));
  }

  @Test
  void theNextPumpDownKnowsTheZeroThatTheLastOneShowed() {
    ControlBench bench =
        ControlBench.with(TestSteps.evacuate(100), TestSteps.evacuate(100), TestSteps.ask());
    bench.pressurePa(175).start().forSeconds(121);
    assertEquals(1, bench.state.cursor().position());
    bench.forSeconds(13);
    assertEquals(2, bench.state.cursor().position());
    assertEquals(150, bench.state.gas().zeroPa().value(), 1, "the gauge shows 1.8 mbar");
  }

  @Test
  void aPauseShowsTheZeroTooSoThatThePumpDownEndsSoonAfterIt() {
    ControlBench bench = evacuating(175).forSeconds(50);
    bench.tick(new Request.Pause("Ada"));
    bench.tick(new Request.Resume("Ada"));
    bench.forSeconds(11);
    assertEquals(0, bench.state.cursor().position());
    bench.forSeconds(2);
    assertEquals(1, bench.state.cursor().position());
    assertFalse(tellsOfTheGauge(bench));
  }

  @Test
  void aBackfillFillsOnceThePumpIsAtItsLowest() {
    Step.Backfill fill =
        new Step.Backfill(TestSteps.unattended("Fill"), Step.Gas.INERT, 90_000, 1, 100);
    ControlBench bench = ControlBench.with(fill, TestSteps.ask());
    bench.pressurePa(170).start().forSeconds(119);
    assertTrue(bench.isOn(Switch.VACUUM));
    bench.forSeconds(2);
    assertTrue(bench.isOn(Switch.INERT));
    assertFalse(bench.isOn(Switch.VACUUM));
    assertTrue(tellsOfTheGauge(bench));
  }

  /** Volumes of 0.6 % and 1.25 % and a gain of 0.1 % leave half a percent of a full vessel. */
  @Test
  void whatWasPumpedOffIsToldAsWellAsItIsKnown() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.soak(295, 30, 5), TestSteps.evacuate(100), TestSteps.soak(295, 30, 5));
    bench.start().forSeconds(31);
    bench.pressurePa(30).forSeconds(14);
    bench.pressurePa(0).forSeconds(3);
    Event.GasExchanged told = bench.events(Event.GasExchanged.class).get(0);
    double share = told.fromMol().standardUncertainty() / told.fromMol().value();
    assertEquals(0.006, share, 0.002);
    assertTrue(told.toMol().standardUncertainty() > 0, "a gauge at nothing is not sure of it");
    assertTrue(
        told.sentence().startsWith("Gas exchanged: from (6.727 ± 0.051) mmol to ("),
        told.sentence());
  }
}
