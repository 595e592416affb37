package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** Where exactly the limits and delays of the rows of heat lie. */
class HeatSignEdgesTest {
  private final TickByHand hand = new TickByHand();

  /** Told to give nothing since one second; the coolest oven since then was this. */
  private static HeatSigns off(double coolestK, long coolestAtMillis) {
    return new HeatSigns(
        1000, coolestK, coolestAtMillis, -1, 0, 800_000, 400, 0, SampleLag.UNKNOWN);
  }

  /** Told to give all since then, with the oven at 400 K. */
  private static HeatSigns full(long sinceMillis) {
    return new HeatSigns(-1, 0, 0, sinceMillis, 400, 800_000, 400, 0, SampleLag.UNKNOWN);
  }

  /** A short window that began at a sample of 400 K. */
  private static HeatSigns window(long beganMillis) {
    return new HeatSigns(-1, 0, 0, -1, 0, beganMillis, 400, 0, SampleLag.UNKNOWN);
  }

  private HeatSigns step(HeatSigns before, long nowMillis) {
    return before.step(hand.at(nowMillis, before), nowMillis, false);
  }

  private int suspiciousWindows(double seconds, double sampleK, double ovenK) {
    hand.heat(sampleK, ovenK);
    return step(window(10_000), 10_000 + StrictMath.round(seconds * 1000)).runawayGrids();
  }

  @Test
  void theElementHasOneMinuteToGiveItsHeatToTheOven() {
    hand.heat(400, 400);
    assertEquals(0, step(off(0, 0), 60_999).coolestOvenK());
    assertEquals(400, step(off(0, 0), 61_000).coolestOvenK());
    assertEquals(61_000, step(off(0, 0), 61_000).coolestAtMillis());
  }

  @Test
  void theCoolestOvenIsRememberedForTenMinutes() {
    hand.heat(400, 402);
    assertEquals(400, step(off(400, 100_000), 550_000).coolestOvenK());
    assertEquals(400, step(off(400, 100_000), 699_999).coolestOvenK());
    assertEquals(402, step(off(400, 100_000), 700_000).coolestOvenK());
  }

  @Test
  void onlyAnOvenCoolerByMoreThanHalfAKelvinIsANewCoolest() {
    hand.heat(400, 399.5);
    assertEquals(400, step(off(400, 100_000), 200_000).coolestOvenK());
    hand.heat(400, 399.375);
    assertEquals(399.375, step(off(400, 100_000), 200_000).coolestOvenK());
  }

  @Test
  void aRelayCountsAsWeldedFromMoreThanFourKelvinOn() {
    hand.heat(400, 404);
    assertFalse(HeatSigns.heaterStuckOn(hand.at(200_000, off(400, 100_000))));
    hand.heat(400, 404.125);
    assertTrue(HeatSigns.heaterStuckOn(hand.at(200_000, off(400, 100_000))));
  }

  @Test
  void aSampleFiveKelvinHotterThanTheOvenMayBeWhatWarmsIt() {
    hand.heat(415, 410);
    assertFalse(HeatSigns.heaterStuckOn(hand.at(200_000, off(400, 100_000))));
    hand.heat(414.875, 410);
    assertTrue(HeatSigns.heaterStuckOn(hand.at(200_000, off(400, 100_000))));
  }

  /** Full is nine tenths of what the heater may ever be given, not of its rating. */
  @Test
  void aHeaterHeldToHalfItsPowerIsAtFullOutputFromFortyFivePercentOn() {
    TestRig rig = new TestRig();
    rig.heater = new Heater(Heater.Actuator.ANALOGUE, 800, 10, 1, 0.5);
    TickByHand half = new TickByHand(rig).heat(400, 400);
    for (int perMille : new int[] {449, 450}) {
      half.told(Outputs.of(perMille, Switch.HEATER));
      HeatSigns after = window(20_000).step(half.at(20_250), 20_250, false);
      assertEquals(perMille == 450 ? 20_250 : -1, after.fullSinceMillis());
    }
  }

  @Test
  void aHeaterAtFullOutputCountsAsDeadAfterFourMinutes() {
    assertFalse(HeatSigns.heaterDead(hand.at(240_999, full(1000))));
    assertTrue(HeatSigns.heaterDead(hand.at(241_000, full(1000))));
    assertFalse(HeatSigns.heaterDead(hand.at(999_000, off(400, 0))), "not told to heat");
  }

  @Test
  void moreThanThreeKelvinShowThatAHeaterLives() {
    hand.told(Outputs.of(1000, Switch.HEATER));
    hand.heat(400, 403);
    assertEquals(1000, step(full(1000), 200_000).fullSinceMillis());
    hand.heat(400, 403.125);
    assertEquals(200_000, step(full(1000), 200_000).fullSinceMillis());
    assertEquals(403.125, step(full(1000), 200_000).fullOvenK());
  }

  @Test
  void aClimbIsSuspiciousAboveEightTenthsOfAKelvinPerSecond() {
    assertEquals(0, suspiciousWindows(5, 404, 450));
    assertEquals(1, suspiciousWindows(5, 404.125, 450));
  }

  @Test
  void aClimbAboveThreeKelvinPerSecondIsALeapAndNeedsNoSecondWindow() {
    assertEquals(1, suspiciousWindows(2, 406, 450));
    assertEquals(2, suspiciousWindows(2, 406.125, 450));
  }

  @Test
  void twelveKelvinAheadAreNotSuspiciousYetAndNeitherIsASlowClimb() {
    assertEquals(0, suspiciousWindows(5, 401, 389), "12 K ahead, 0.2 K/s");
    assertEquals(1, suspiciousWindows(5, 401, 388.875), "12.125 K ahead, 0.2 K/s");
    assertEquals(0, suspiciousWindows(20, 403, 380), "23 K ahead, 0.15 K/s");
    assertEquals(1, suspiciousWindows(20, 403.125, 380));
  }

  /** Times count from the beginning of the batch, which is itself a time. */
  @Test
  void whatBeganWithTheBatchItselfIsNoLessTrue() {
    hand.heat(404, 450);
    assertEquals(1, step(window(0), 2000).runawayGrids(), "2 K/s from the beginning on");
    assertTrue(HeatSigns.heaterDead(hand.at(240_000, full(0))));
    hand.told(Outputs.of(1000, Switch.HEATER)).heat(400, 400);
    assertEquals(0, step(full(0), 200_000).fullSinceMillis());
    HeatSigns off = new HeatSigns(0, 0, 0, -1, 0, 1000, 400, 0, SampleLag.UNKNOWN);
    hand.told(Outputs.OFF);
    assertEquals(0, step(off, 1250).zeroSinceMillis());
  }

  /**
   * By balance: 1 Pa/s is 0.134 µmol/s of O2 in the test vessel at 295 K and, at 312 kJ/mol, 42 mW.
   * The conductance is guessed as ten times the 1.54 J/K of 4 g copper over its lag of 450 s, so 34
   * mW/K; 1.2 K, and two and a half times that because the guess is wide.
   */
  @Test
  void howFarAReactionMayWarmTheSampleFollowsFromItsUptake() {
    ControlBench bench =
        ControlBench.seeing(new TestRig().build(), TestSteps.soak(295, 1e5, 3)).start();
    double pressurePa = 50_000;
    for (int i = 0; i < 4 * 500; i++) {
      pressurePa -= 0.25;
      bench.set(Channel.VESSEL_PRESSURE_PAIR, pressurePa).pressurePa(pressurePa).tick();
    }
    assertEquals(3.07, bench.state.signs().heat().lag().reactionK(), 0.3);
  }
}
