package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/** What the pressure does by hand, and what the rows of gas make of it. */
class GasSignsTest {
  private final TestRig rig = new TestRig();
  private ControlBench bench;
  private double pressurePa = 50_000;
  private double pairOffPa;

  private ControlBench running(Step... steps) {
    bench = ControlBench.seeing(rig.build(), steps);
    put();
    bench.start();
    return bench;
  }

  private void change(double seconds, double paPerS) {
    for (int i = 0; i < StrictMath.round(seconds / ControlBench.TICK_S); i++) {
      pressurePa += paPerS * ControlBench.TICK_S;
      put();
      bench.tick();
    }
  }

  private void put() {
    bench.pressurePa(pressurePa).set(Channel.VESSEL_PRESSURE_PAIR, pressurePa + pairOffPa);
  }

  private boolean isUp(String row) {
    return bench.alarm(row) != AlarmState.NORMAL;
  }

  private static Step soak() {
    return TestSteps.soak(295, 1e5, 3);
  }

  @Test
  void aFastRiseWithEveryValveShutIsSeenWithinSeconds() {
    running(soak());
    change(10, 0);
    change(1.5, 500);
    assertFalse(isUp("gas comes in"), "up by 7.5 mbar");
    change(1, 500);
    assertTrue(isUp("gas comes in"));
    assertFalse(bench.isOn(Switch.HEATER) || bench.isOn(Switch.OXYGEN) || bench.isOn(Switch.INERT));
  }

  @Test
  void aSlowRiseIsSeenAtTheEndOfItsWindow() {
    running(soak());
    change(297, 0.55);
    assertFalse(isUp("gas comes in"));
    change(10, 0.55);
    assertTrue(isUp("gas comes in"));
  }

  @Test
  void aSlowerRiseIsLeftToTheLeakTest() {
    running(soak());
    change(1800, 0.45);
    assertFalse(isUp("gas comes in"));
  }

  @Test
  void theRiseOfAWarmerGasIsNoGas() {
    running(TestSteps.ramp(500, 0.1));
    for (int i = 0; i < 4 * 600; i++) {
      double temperatureK = 295 + 0.1 * i / 4;
      bench.allAtK(temperatureK);
      double hotPart = TestRig.HOT_M3 / temperatureK + TestRig.COLD_M3 / 295;
      double atStart = TestRig.HOT_M3 / 295 + TestRig.COLD_M3 / 295;
      pressurePa = 50_000 * atStart / hotPart;
      put();
      bench.tick();
    }
    assertFalse(isUp("gas comes in"));
  }

  @Test
  void whatGoesOnPastTheRoomComesFromASupply() {
    pressurePa = 100_000;
    running(soak());
    change(10, 0);
    change(5, 400);
    assertTrue(isUp("gas comes in"));
    assertFalse(isUp("supply valve passes"), "102 kPa is not yet past the room");
    change(5, 400);
    assertTrue(isUp("supply valve passes"));
    assertFalse(isUp("vessel leaks"));
  }

  /** Somebody may have opened it before the answer: then the room fills it, and no more. */
  @Test
  void aVesselThatMayBeOpenIsFilledByTheRoomButNotPastIt() {
    pressurePa = TestRig.ROOM_PA - 900;
    running(TestSteps.open());
    change(10, 0);
    assertEquals(OpenQuestion.Purpose.READY_TO_OPEN, bench.state.question().purpose());
    change(6, 400);
    assertFalse(isUp("gas comes in"), "up to 1.5 kPa past the room, which a gauge may be off");
    change(1, 400);
    assertTrue(isUp("gas comes in"));
    change(5, 0);
    assertFalse(isUp("vessel leaks"));
  }

  @Test
  void whatComesToRestAtRoomPressureIsALeak() {
    running(soak());
    change(10, 0);
    change(102, 500);
    assertFalse(isUp("vessel leaks"));
    change(62, 0);
    assertTrue(isUp("vessel leaks"));
    assertFalse(isUp("supply valve passes"));
  }

  @Test
  void aVesselThatStaysAtRoomPressureWhileItCoolsIsOpenToTheRoom() {
    pressurePa = TestRig.ROOM_PA;
    running(TestSteps.cool(300));
    for (int i = 0; i < 4 * 100; i++) {
      bench.allAtK(500 - 0.25 * i / 4).tick();
    }
    assertTrue(isUp("vessel leaks"));
  }

  @Test
  void aTightVesselThatCoolsFromRoomPressureDoesNotLeak() {
    running(TestSteps.cool(300));
    for (int i = 0; i < 4 * 600; i++) {
      double temperatureK = 500 - 0.25 * i / 4;
      bench.allAtK(temperatureK);
      double now = TestRig.HOT_M3 / temperatureK + TestRig.COLD_M3 / 295;
      double atStart = TestRig.HOT_M3 / 500 + TestRig.COLD_M3 / 295;
      pressurePa = TestRig.ROOM_PA * atStart / now;
      put();
      bench.tick();
    }
    assertFalse(isUp("vessel leaks") || isUp("gas comes in"));
  }

  @Test
  void aPumpThatDoesNotPullFailsAfterFifteenSeconds() {
    running(TestSteps.evacuate(500));
    change(14, -100);
    assertFalse(isUp("pump fails"));
    change(3, 0);
    assertTrue(isUp("pump fails"));
    assertFalse(bench.isOn(Switch.PUMP));
  }

  @Test
  void aPumpThatTakesAThirdEveryFifteenSecondsWorks() {
    running(TestSteps.evacuate(500));
    for (int i = 0; i < 8; i++) {
      change(14, -0.35 * pressurePa / 14);
    }
    assertFalse(isUp("pump fails"));
  }

  @Test
  void aPumpNeedNotPullWhereAPoorGaugesZeroMayHideIt() {
    pressurePa = 700;
    rig.pressureZeroPa = 200;
    running(TestSteps.evacuate(100));
    change(60, 0);
    assertFalse(isUp("pump fails"), "four times 2 mbar");
    rig.pressureZeroPa = 100;
    running(TestSteps.evacuate(100));
    change(60, 0);
    assertTrue(isUp("pump fails"), "four times 1 mbar");
  }

  @Test
  void nearItsUltimateAPumpNeedNotPull() {
    pressurePa = 380;
    running(TestSteps.evacuate(100));
    change(60, 0);
    assertFalse(isUp("pump fails"));
  }

  @Test
  void aFillingThatDoesNotFillIsSeenAfterFiveSeconds() {
    pressurePa = 400;
    running(new Step.Backfill(TestSteps.unattended("Fill"), Step.Gas.INERT, 90_000, 1, 500));
    change(4.5, 100);
    assertTrue(bench.isOn(Switch.INERT));
    assertFalse(isUp("no filling"));
    change(1.5, 0);
    assertTrue(isUp("no filling"));
    assertFalse(bench.isOn(Switch.INERT));
  }

  @Test
  void aFillingThatFillsGoesOn() {
    pressurePa = 400;
    running(new Step.Backfill(TestSteps.unattended("Fill"), Step.Gas.INERT, 90_000, 1, 500));
    change(60, 150);
    assertFalse(isUp("no filling"));
  }

  @Test
  void aVentThatLetsNothingOutIsBlocked() {
    pressurePa = TestRig.ROOM_PA + 5000;
    running(TestSteps.open());
    change(9, 0);
    assertFalse(isUp("vent blocked"));
    change(3, 0);
    assertTrue(isUp("vent blocked"));
  }

  @Test
  void aVentThatRelievesIsNotBlocked() {
    pressurePa = TestRig.ROOM_PA + 5000;
    running(TestSteps.open());
    change(9, -130);
    change(20, -100);
    assertFalse(isUp("vent blocked"));
  }

  /** Pulses bring a little, and the solid takes it at once. */
  private void fedAndHungry(double seconds, double leastPa) {
    for (int i = 0; i < StrictMath.round(seconds / ControlBench.TICK_S); i++) {
      boolean fed = bench.isOn(Switch.OXYGEN);
      pressurePa = StrictMath.max(leastPa, pressurePa + (fed ? 150 : -100) * ControlBench.TICK_S);
      put();
      bench.tick();
    }
  }

  private static Step holding(String title) {
    return new Step.Soak(TestSteps.holding(title, 60_000), 295, 1e5, 3);
  }

  @Test
  void aVesselThatStaysFarBelowItsPressureIsSaidAfterTenMinutesAndHoldsNothing() {
    pressurePa = 45_000;
    running(holding("Soak"));
    fedAndHungry(590, 45_000);
    assertFalse(isUp("pressure low"));
    fedAndHungry(20, 45_000);
    assertEquals(BatchState.RUNNING, bench.phase(), bench.state.phaseWhy());
    assertTrue(isUp("pressure low"));
    assertEquals(0, bench.plan.interlocks().get(bench.row("pressure low")).effects());
  }

  @Test
  void aPressureAboveFourFifthsIsNotLow() {
    pressurePa = 49_000;
    running(holding("Soak"));
    fedAndHungry(1300, 49_000);
    assertFalse(isUp("pressure low"));
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void whereNoPressureIsToBeKeptNoneIsLow() {
    pressurePa = 1000;
    running(new Step.Soak(TestSteps.unattended("Soak"), 295, 1e5, 3));
    change(1300, 0);
    assertFalse(isUp("pressure low"));
  }

  @Test
  void evacuatingIsNoLowPressureByDesign() {
    InterlockRow row =
        InterlockTable.of(new TestRig().build()).stream()
            .filter(each -> each.id().equals("pressure low"))
            .findFirst()
            .orElseThrow();
    for (String kind : new String[] {"evacuate", "leak test", "backfill", "dose", "open", "ask"}) {
      assertTrue(row.suppressedIn().contains(kind), kind);
    }
    assertFalse(row.suppressedIn().contains("soak") || row.suppressedIn().contains("ramp"));
  }

  @Test
  void pairsThatDisagreeTripAfterThreeSeconds() {
    running(soak());
    pairOffPa = 1000;
    change(2.5, 0);
    assertFalse(isUp("gauges disagree"));
    change(1, 0);
    assertTrue(isUp("gauges disagree"));
  }

  @Test
  void anEmptySupplyTripsAfterFiveSecondsBelowThreeFifths() {
    running(soak());
    bench.set(Channel.SUPPLY_PRESSURE, 90_100);
    change(20, 0);
    assertFalse(isUp("oxygen supply empty"));
    bench.set(Channel.SUPPLY_PRESSURE, 89_900);
    change(4.5, 0);
    assertFalse(isUp("oxygen supply empty"));
    change(1, 0);
    assertTrue(isUp("oxygen supply empty"));
  }

  @Test
  void aSupplyGaugeWithoutAValueCountsAsEmpty() {
    running(soak());
    bench.bad(Channel.SUPPLY_PRESSURE);
    change(4.5, 0);
    assertFalse(isUp("oxygen supply empty"));
    change(1, 0);
    assertTrue(isUp("oxygen supply empty"));
  }

  /** Bounds of a non-hazardous atmosphere: 19.5 % and 23.5 % oxygen, 29 CFR 1910.146(b). */
  @Test
  void airThatHoldsTooLittleOxygenShutsEverySupply() {
    running(soak());
    bench.set(Channel.ROOM_OXYGEN, 0.194);
    change(1, 0);
    assertTrue(isUp("room oxygen low"));
    assertFalse(bench.isOn(Switch.OXYGEN) || bench.isOn(Switch.INERT) || bench.isOn(Switch.HEATER));
  }

  /** While a batch is paused nothing keeps the pressure, by design. */
  @Test
  void whileABatchIsPausedItsPressureIsNotLow() {
    pressurePa = 45_000;
    running(holding("Soak"));
    fedAndHungry(10, 45_000);
    bench.tick(new Request.Pause(ControlBench.PERSON));
    change(1300, 0);
    assertEquals(BatchState.PAUSED, bench.phase(), bench.state.phaseWhy());
    assertFalse(isUp("pressure low"));
  }
}
