package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.GasSigns.Doing;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;

/** A fill that stops, at its beginning or half-way, and fills that do not; the gauge has 10 Pa. */
class FillWatchTest {
  private static final double ROOM_PA = TestRig.ROOM_PA;

  private final TickByHand hand = new TickByHand();

  private TickWork at(long millis, double pressurePa) {
    return hand.pressure(pressurePa).at(millis);
  }

  private FillWatch since(long millis, double fromPa, long slowestMillis) {
    return new FillWatch(millis, fromPa, TickByHand.ROOM_K, TickByHand.ROOM_K, slowestMillis);
  }

  private boolean fails(FillWatch fill, long millis, double pressurePa) {
    return fill.standsStill(at(millis, pressurePa), false);
  }

  @Test
  void inertGasHasFiveSecondsForFiveMillibar() {
    FillWatch fill = since(1000, 400, 0);
    assertFalse(fails(fill, 5999, 400));
    assertTrue(fails(fill, 6000, 400));
    assertTrue(fails(fill, 6000, 890));
    assertFalse(fails(fill, 6000, 900));
  }

  @Test
  void oxygenHasFifteenSeconds() {
    FillWatch fill = since(1000, 400, 0);
    assertFalse(fill.standsStill(at(15_999, 400), true));
    assertTrue(fill.standsStill(at(16_000, 400), true));
  }

  @Test
  void itsTimeBeginsAnewWithEveryFiveMillibar() {
    FillWatch fill = since(1000, 50_000, 0);
    assertSame(fill, fill.step(at(2000, 50_490), 2000));
    FillWatch next = fill.step(at(2000, 50_500), 2000);
    assertEquals(since(2000, 50_500, 1000), next);
    assertFalse(fails(next, 6999, 50_990));
    assertTrue(fails(next, 7000, 50_990), "it stopped half-way");
  }

  /** The slowest rise took 4 s: the next one may take 12 s, however fast the others were. */
  @Test
  void aSlowFillHasThreeTimesWhatItTookBefore() {
    FillWatch fill = since(0, 50_000, 0).step(at(4000, 50_500), 4000).step(at(5000, 51_000), 5000);
    assertEquals(since(5000, 51_000, 4000), fill);
    assertFalse(fails(fill, 16_999, 51_000));
    assertTrue(fails(fill, 17_000, 51_000));
  }

  @Test
  void aSolidThatWarmsAheadOfItsOvenTakesUpWhatComesIn() {
    FillWatch fill = since(1000, 50_000, 3000);
    hand.heat(TickByHand.ROOM_K + 1.875, TickByHand.ROOM_K + 1);
    assertSame(fill, fill.step(at(5000, 50_000), 5000));
    hand.heat(TickByHand.ROOM_K + 2, TickByHand.ROOM_K + 1);
    FillWatch next = fill.step(at(5000, 50_000), 5000);
    assertEquals(
        new FillWatch(5000, 50_000, TickByHand.ROOM_K + 2, TickByHand.ROOM_K + 1, 3000), next);
    // From there on it must warm by one kelvin more.
    assertSame(next, next.step(at(6000, 50_000), 6000));
  }

  @Test
  void oxygenThatASampleAheadOfItsOvenIsFedMayBeTakenUpAtOnce() {
    FillWatch fill = new FillWatch(1000, 400, TickByHand.ROOM_K + 5, TickByHand.ROOM_K, 0);
    hand.heat(TickByHand.ROOM_K + 5, TickByHand.ROOM_K);
    assertFalse(fill.standsStill(at(60_000, 400), true));
    assertTrue(fill.standsStill(at(60_000, 400), false), "inert gas is not taken up");
    hand.heat(TickByHand.ROOM_K + 4.875, TickByHand.ROOM_K);
    assertTrue(fill.standsStill(at(60_000, 400), true));
  }

  /**
   * 2.2e-13 m³/(s Pa) at 150 kPa are 33 mm³/s of 100 kPa, or 1.3 umol/s: 5 mbar of 330 cm³ take
   * some 52 s by the rig file.
   */
  @Test
  void aValveThatIsSlowByTheRigFileHasThreeTimesItsTime() {
    TickWork work = at(1000, 400);
    work.gas =
        work.gas.withSource(
            new GasSource("slow", 0.995, 0.001, 150_000, 2.2e-13, 0.3), HeatBalance.NONE);
    FillWatch fill = since(1000, 400, 0);
    work.lastMillis = 141_000;
    assertFalse(fill.standsStill(work, true));
    work.lastMillis = 171_000;
    assertTrue(fill.standsStill(work, true));
  }

  @Test
  void nearRoomPressureThereIsNothingToFill() {
    assertFalse(fails(since(1000, ROOM_PA - 200, 0), 6000, ROOM_PA - 200));
    assertTrue(fails(since(1000, ROOM_PA - 210, 0), 6000, ROOM_PA - 210));
  }

  private GasSigns signs(Outputs told, Pulse pulse) {
    TickWork work = hand.told(told).at(5000);
    work.pulse = pulse;
    return GasSigns.NONE.step(work, 5000, false);
  }

  @Test
  void aFillOfOxygenIsWatchedButNoPulseAndNoSweep() {
    Outputs oxygen = Outputs.of(0, Switch.OXYGEN);
    GasSigns fills = signs(oxygen, Pulse.NONE);
    assertEquals(Doing.FILLING_OXYGEN, fills.doing());
    assertEquals(5000, fills.fill().sinceMillis());
    assertEquals(Doing.OTHER, signs(oxygen, Pulse.NONE.begin(50_000, 1000)).doing());
    assertEquals(Doing.FILLING, signs(Outputs.of(0, Switch.INERT), Pulse.NONE).doing());
    GasSigns sweeps = signs(Outputs.of(0, Switch.INERT, Switch.VENT), Pulse.NONE);
    assertEquals(Doing.OTHER, sweeps.doing());
    TickWork later = hand.told(Outputs.of(0, Switch.INERT, Switch.VENT)).at(60_000, sweeps);
    assertFalse(GasSigns.fillFails(later), "nothing need rise in a sweep");
  }

  @Test
  void aFillGoesOnBeingWatchedFromWhereItCameTo() {
    hand.told(Outputs.of(0, Switch.OXYGEN));
    GasSigns begun = GasSigns.NONE.step(at(1000, 50_000), 1000, false);
    GasSigns same = begun.step(hand.pressure(50_490).at(2000, begun), 2000, false);
    assertSame(begun, same);
    GasSigns on = begun.step(hand.pressure(50_500).at(3000, begun), 3000, false);
    assertEquals(since(3000, 50_500, 2000), on.fill());
    assertEquals(1000, on.sinceMillis());
    assertFalse(GasSigns.fillFails(hand.at(17_999, on)));
    assertTrue(GasSigns.fillFails(hand.at(18_000, on)));
    GasSigns gap = on.step(hand.at(60_000, on), 60_000, true);
    assertEquals(since(60_000, 50_500, 0), gap.fill(), "nobody knows what was in a gap");
  }

  private static Step.Backfill fill(Step.Gas gas, double toPa) {
    return new Step.Backfill(TestSteps.unattended("Fill"), gas, toPa, 1, 500);
  }

  /** Fills until that pressure is there, then lets a fault begin, and waits for the hold. */
  private static double heldAfterS(Step.Gas gas, double atPa, Fault fault) {
    SimulatedLoop loop = new SimulatedLoop(1, fill(gas, 90_000));
    Switch valve = gas == Step.Gas.INERT ? Switch.INERT : Switch.OXYGEN;
    while (!loop.outputs.isOn(valve) || loop.bench.truth().pressurePa() < atPa) {
      loop.tick();
    }
    loop.bench.inject(fault, 1);
    long millis = loop.millis;
    loop.until(BatchState.HELD, 60);
    List<String> alarms =
        loop.events.stream()
            .filter(e -> e instanceof Event.AlarmRaised)
            .map(e -> ((Event.AlarmRaised) e).alarm())
            .toList();
    assertEquals(List.of("no filling"), alarms);
    assertFalse(loop.outputs.isOn(valve));
    return (loop.millis - millis) / 1000.0;
  }

  @Test
  void aBottleThatIsEmptyHalfWayIsNoticedWithinItsDelay() {
    double afterS = heldAfterS(Step.Gas.INERT, 45_000, Fault.INERT_SUPPLY_EMPTY);
    assertEquals(5.5, afterS, 0.75);
  }

  @Test
  void anOxygenValveThatIsBlockedHalfWayIsNoticedWithinItsDelay() {
    double afterS = heldAfterS(Step.Gas.OXYGEN, 45_000, Fault.OXYGEN_VALVE_BLOCKED);
    assertEquals(15.5, afterS, 0.75);
  }

  private static void completes(SimulatedLoop loop, double atMostS) {
    loop.until(BatchState.COMPLETE, atMostS);
    assertTrue(
        loop.events.stream().noneMatch(e -> e instanceof Event.AlarmRaised),
        () -> loop.events.toString());
  }

  /** The supply has 950 mbar; the last millibars come more and more slowly. */
  @Test
  void aFillThatEndsNearThePressureOfItsSupplyIsNoVainOne() {
    SimulatedLoop loop = new SimulatedLoop(1, fill(Step.Gas.OXYGEN, 94_700));
    loop.bench.changeOxygenSource(0.995, 95_000);
    completes(loop, 1200);
  }

  @Test
  void aValveThatPassesLittleFillsSlowlyAndIsNoVainOne() {
    SimulatedLoop loop = new SimulatedLoop(1, fill(Step.Gas.OXYGEN, 90_000));
    loop.bench.inject(Fault.OXYGEN_VALVE_BLOCKED, 0.9);
    completes(loop, 3600);
  }

  /**
   * At 225 °C copper takes up nearly all that comes through a valve that is nearly blocked, and
   * stands some 20 K above its oven meanwhile.
   */
  @Test
  void aHungrySolidMayTakeUpWhatComesIn() {
    SimulatedLoop loop =
        new SimulatedLoop(
            1,
            TestSteps.evacuate(300),
            TestSteps.ramp(498.15, 4 / 60.0),
            TestSteps.soak(498.15, 600, 3),
            fill(Step.Gas.OXYGEN, 20_000));
    loop.bench.inject(Fault.OXYGEN_VALVE_BLOCKED, 0.97);
    double fromPa = Double.MAX_VALUE;
    double slowestS = 0;
    double forS = 0;
    while (loop.state.phase() == BatchState.RUNNING && loop.millis < 4 * 3_600_000) {
      loop.tick();
      double pressurePa = loop.bench.truth().pressurePa();
      boolean begins = !loop.outputs.isOn(Switch.OXYGEN) || pressurePa >= fromPa + 500;
      fromPa = begins ? pressurePa : fromPa;
      forS = begins ? 0 : forS + 0.25;
      slowestS = StrictMath.max(slowestS, forS);
    }
    assertTrue(slowestS > 20, "it took up what came in: " + slowestS + " s");
    completes(loop, 0);
  }
}
