package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.controller.control.GasSigns.Doing;
import tarnish.controller.control.GasSigns.Mark;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** Where exactly the limits and delays of the rows of gas lie; the gauge has steps of 10 Pa. */
class GasSignEdgesTest {
  private static final double ROOM_PA = TestRig.ROOM_PA;

  private final TickByHand hand = new TickByHand();

  private static GasSigns since(long millis, Doing doing, double startPa) {
    return new GasSigns(doing, millis, startPa, null, null, false);
  }

  /** A mark of gas at room temperature, of which so much was in the vessel. */
  private Mark mark(long millis, double pressurePa, double asIfPa) {
    double amount = asIfPa * hand.at(millis).volumeOverTemperature();
    return new Mark(millis, pressurePa, TickByHand.ROOM_K, TickByHand.ROOM_K, amount);
  }

  /** Shut since one second, with windows that began at that pressure. */
  private GasSigns shut(long referenceMillis, long recentMillis, double fromPa, boolean rising) {
    Mark reference = mark(referenceMillis, fromPa, fromPa);
    return new GasSigns(
        Doing.SHUT, 1000, fromPa, reference, mark(recentMillis, fromPa, fromPa), rising);
  }

  private GasSigns step(GasSigns before, long nowMillis, double pressurePa) {
    return before.step(hand.pressure(pressurePa).at(nowMillis, before), nowMillis, false);
  }

  private TickWork at(long nowMillis, GasSigns gas, double pressurePa) {
    return hand.pressure(pressurePa).at(nowMillis, gas);
  }

  @Test
  void aPumpThatPullsNothingFailsAtFifteenSecondsUnlessItIsNearItsUltimate() {
    GasSigns pumping = since(1000, Doing.PUMPING, 50_000);
    assertFalse(GasSigns.pumpFails(at(15_999, pumping, 50_000)));
    assertTrue(GasSigns.pumpFails(at(16_000, pumping, 50_000)));
    assertFalse(GasSigns.pumpFails(at(16_000, pumping, 390)), "300 Pa and three times 30 Pa");
    assertTrue(GasSigns.pumpFails(at(16_000, pumping, 400)));
  }

  @Test
  void aPumpMustHaveTakenMoreThanThreeTenthsForItsTimeToBeginAnew() {
    hand.told(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    GasSigns pumping = since(1000, Doing.PUMPING, 50_000);
    assertEquals(1000, step(pumping, 9000, 35_000).sinceMillis());
    assertEquals(9000, step(pumping, 9000, 34_990).sinceMillis());
    assertEquals(34_990, step(pumping, 9000, 34_990).startPa());
  }

  @Test
  void aVentIsBlockedAtTenSecondsWithMoreThanTwentyMillibarLeft() {
    GasSigns venting = since(1000, Doing.VENTING, ROOM_PA + 5000);
    assertFalse(GasSigns.ventBlocked(at(10_999, venting, ROOM_PA + 5000)));
    assertTrue(GasSigns.ventBlocked(at(11_000, venting, ROOM_PA + 5000)));
    assertFalse(GasSigns.ventBlocked(at(11_000, venting, ROOM_PA + 2000)));
    assertTrue(GasSigns.ventBlocked(at(11_000, venting, ROOM_PA + 2010)));
  }

  @Test
  void aVentMustHaveLetOutMoreThanAFifthOfTheOverpressureForItsTimeToBeginAnew() {
    hand.told(Outputs.of(0, Switch.VENT));
    GasSigns venting = since(1000, Doing.VENTING, ROOM_PA + 5000);
    assertEquals(1000, step(venting, 9000, ROOM_PA + 4000).sinceMillis());
    assertEquals(9000, step(venting, 9000, ROOM_PA + 3990).sinceMillis());
  }

  @Test
  void valveAndGaugeHaveTwoSecondsToComeToRest() {
    GasSigns shut = since(5000, Doing.SHUT, 50_000);
    assertNull(step(shut, 6999, 50_000).reference());
    assertNotNull(step(shut, 7000, 50_000).reference());
    assertEquals(7000, step(shut, 7000, 50_000).recent().millis());
  }

  @Test
  void aRiseByMoreThanOneAndAHalfMillibarShowsAtTheEndOfFiveMinutes() {
    GasSigns shut = shut(10_000, 290_000, 50_000, false);
    assertFalse(step(shut, 309_999, 50_160).slowRise());
    assertTrue(step(shut, 310_000, 50_160).slowRise());
    assertEquals(310_000, step(shut, 310_000, 50_160).reference().millis());
    assertFalse(step(shut, 310_000, 50_150).slowRise());
  }

  @Test
  void onceGasComesInItIsLookedAtEveryMinute() {
    GasSigns rising = shut(10_000, 60_000, 50_000, true);
    assertTrue(step(rising, 69_999, 50_000).slowRise());
    assertFalse(step(rising, 70_000, 50_000).slowRise(), "nothing came in for a minute");
    assertTrue(step(rising, 70_000, 50_160).slowRise());
  }

  @Test
  void aRiseByMoreThanEightMillibarIsTooMuchAtOnce() {
    GasSigns shut = shut(10_000, 10_000, 50_000, false);
    assertFalse(GasSigns.gasComesIn(at(12_000, shut, 50_800)));
    assertTrue(GasSigns.gasComesIn(at(12_000, shut, 50_810)));
  }

  @Test
  void aFastRiseIsRememberedAtTheEndOfHalfAMinute() {
    GasSigns shut = shut(10_000, 10_000, 50_000, false);
    assertFalse(step(shut, 39_999, 50_810).slowRise());
    assertTrue(step(shut, 40_000, 50_810).slowRise());
    assertEquals(40_000, step(shut, 40_000, 50_810).reference().millis());
    assertEquals(10_000, step(shut, 40_000, 50_800).reference().millis());
    assertEquals(40_000, step(shut, 40_000, 50_800).recent().millis());
  }

  @Test
  void whatStandsMoreThanFifteenMillibarOverTheRoomComesFromASupply() {
    GasSigns rising = shut(10_000, 10_000, 50_000, true);
    assertFalse(GasSigns.supplyLeaksIn(at(12_000, rising, ROOM_PA + 1500)));
    assertTrue(GasSigns.supplyLeaksIn(at(12_000, rising, ROOM_PA + 1510)));
  }

  @Test
  void aVesselThatFilledItselfLeaksOnceItWasShutForAMinuteAndIsWithinFourMillibarOfTheRoom() {
    assertFalse(leaksAfterGasCameIn(60_999, ROOM_PA));
    assertTrue(leaksAfterGasCameIn(61_000, ROOM_PA));
    for (int sign : new int[] {-1, 1}) {
      assertFalse(leaksAfterGasCameIn(61_000, ROOM_PA + 400 * sign));
      assertTrue(leaksAfterGasCameIn(61_000, ROOM_PA + 390 * sign));
    }
  }

  private boolean leaksAfterGasCameIn(long nowMillis, double pressurePa) {
    TickWork work = at(nowMillis, shut(20_000, 20_000, 50_000, true), pressurePa);
    work.report(InterlockTable.GAS_COMES_IN, "");
    return GasSigns.vesselLeaks(work);
  }

  /** A vessel at room pressure at both ends, in which a change of temperature should have shown. */
  private boolean staysAtRoom(long nowMillis, double shouldHavePa, double startPa) {
    Mark began = mark(1000, startPa, shouldHavePa);
    GasSigns gas = new GasSigns(Doing.SHUT, 500, ROOM_PA, began, began, false);
    return GasSigns.vesselLeaks(at(nowMillis, gas, ROOM_PA));
  }

  @Test
  void aVesselThatStaysAtRoomPressureLeaksWhereMoreThanFifteenMillibarShouldHaveShownInAMinute() {
    assertFalse(staysAtRoom(60_999, ROOM_PA - 1510, ROOM_PA), "not a minute yet");
    assertTrue(staysAtRoom(61_000, ROOM_PA - 1510, ROOM_PA));
    assertFalse(staysAtRoom(61_000, ROOM_PA - 1499, ROOM_PA));
    assertTrue(staysAtRoom(61_000, ROOM_PA + 1510, ROOM_PA), "it warms and does not rise");
    assertFalse(staysAtRoom(61_000, ROOM_PA + 1499, ROOM_PA));
    assertFalse(staysAtRoom(61_000, ROOM_PA - 1510, ROOM_PA - 400), "it was not there before");
  }

  /** 30 Pa of noise and 1 Pa/s: what is less than an alarm, but not nothing. */
  @Test
  void thePressureCreepsUpIfItRisesByMoreThanNoiseAndLeakExplainAndNoWarmingDoes() {
    GasSigns shut = shut(10_000, 10_000, 50_000, false);
    assertFalse(GasSigns.creepsUp(at(20_000, shut, 50_040)));
    assertTrue(GasSigns.creepsUp(at(20_000, shut, 50_050)));
    assertFalse(GasSigns.creepsUp(at(40_000, shut, 50_060)));
    assertTrue(GasSigns.creepsUp(at(40_000, shut, 50_070)));
    Mark lost = mark(10_000, 50_000, 49_990);
    GasSigns colder = new GasSigns(Doing.SHUT, 1000, 50_000, lost, lost, false);
    assertFalse(GasSigns.creepsUp(at(20_000, colder, 50_040)), "the gauge itself must show it");
    assertFalse(GasSigns.creepsUp(at(20_000, since(1000, Doing.PUMPING, 50_000), 50_990)));
    Mark warmed = mark(10_000, 50_000, 50_020);
    GasSigns warmer = new GasSigns(Doing.SHUT, 1000, 50_000, warmed, warmed, false);
    assertFalse(GasSigns.creepsUp(at(20_000, warmer, 50_060)), "20 Pa of it are warming");
    Mark cooled = mark(10_000, 50_040, 50_000);
    GasSigns cooler = new GasSigns(Doing.SHUT, 1000, 50_040, cooled, cooled, false);
    assertFalse(GasSigns.creepsUp(at(20_000, cooler, 50_060)), "it cools after a reaction");
  }

  @Test
  void gasIsDoubtedFromTheFirstSignUntilTheTripIsReset() {
    GasSigns calm = shut(10_000, 10_000, 50_000, false);
    assertFalse(GasSigns.isDoubted(at(12_000, calm, 50_000)));
    assertTrue(GasSigns.isDoubted(at(12_000, calm, 50_810)), "before any row is up");
    for (String row : new String[] {InterlockTable.GAS_COMES_IN, InterlockTable.VESSEL_LEAKS}) {
      TickWork latched = at(12_000, calm, 50_000);
      latched.report(row, "");
      assertTrue(GasSigns.isDoubted(latched), row);
    }
  }

  /**
   * The gas is as warm as the sample, within what only one of sample and oven moved and a quarter
   * of what both did: 20 K and 12 K leave 8 K + 12 K / 4 = 11 K of the oven's 307 K unsure.
   */
  @Test
  void aRiseThatAWarmerGasMayExplainIsNoGasThatComesIn() {
    GasSigns shut = shut(10_000, 10_000, 50_000, false);
    hand.heat(TickByHand.ROOM_K + 20, TickByHand.ROOM_K + 12);
    double explainedPa = shut.recent().amount() / hand.at(12_000).volumeOverTemperature();
    assertTrue(explainedPa > 52_000, "warming alone makes " + explainedPa + " Pa");
    double mostPa = (explainedPa + 800) / (1 - 11.0 / 307);
    assertFalse(GasSigns.gasComesIn(at(12_000, shut, mostPa - 20)));
    assertTrue(GasSigns.gasComesIn(at(12_000, shut, mostPa + 20)));
  }
}
