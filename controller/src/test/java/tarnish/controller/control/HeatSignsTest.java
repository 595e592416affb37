package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Switch;

/** What oven and sample do by hand, and what the rows of heat make of it. */
class HeatSignsTest {
  private final ControlBench bench =
      ControlBench.seeing(new TestRig().build(), TestSteps.ramp(700, 0.1));

  private double sampleK = 400;
  private double ovenK = 400;

  private void climb(double seconds, double sampleKPerS, double ovenKPerS) {
    for (int i = 0; i < StrictMath.round(seconds / ControlBench.TICK_S); i++) {
      sampleK += sampleKPerS * ControlBench.TICK_S;
      ovenK += ovenKPerS * ControlBench.TICK_S;
      put();
      bench.tick();
    }
  }

  private void put() {
    bench.set(Channel.SAMPLE_TEMPERATURE, sampleK).set(Channel.OVEN_TEMPERATURE, ovenK);
    bench.set(Channel.OVEN_TEMPERATURE_PAIR, ovenK);
  }

  private boolean isUp(String row) {
    return bench.alarm(row) != AlarmState.NORMAL;
  }

  private void started() {
    put();
    bench.start();
  }

  @Test
  void aSampleThatClimbsFasterThanTheOvenCanDriveItRunsAwayAfterTwoWindows() {
    started();
    climb(10, 0.1, 0.1);
    climb(2, 0.9, 0.1);
    assertFalse(isUp("runaway"), "one window may be a wild reading");
    climb(2.25, 0.9, 0.1);
    assertTrue(isUp("runaway"));
    assertFalse(bench.isOn(Switch.HEATER));
    assertFalse(bench.isOn(Switch.OXYGEN));
  }

  @Test
  void aLeapNeedsOneWindowOnly() {
    started();
    climb(10, 0.1, 0.1);
    climb(2.25, 3.5, 0.1);
    assertTrue(isUp("runaway"));
  }

  @Test
  void aClimbThatAnOvenCanDriveIsNoRunaway() {
    started();
    climb(120, 0.75, 0.75);
    assertFalse(isUp("runaway"));
  }

  @Test
  void aSampleAheadOfTheOvenRunsAwayOnlyWhileItStillClimbs() {
    sampleK = 413;
    started();
    climb(20, 0.1, 0.1);
    assertFalse(isUp("runaway"), "13 K ahead, but no faster than a ramp");
    climb(4.25, 0.2, 0);
    assertTrue(isUp("runaway"));
  }

  @Test
  void aSampleALittleAheadMayClimb() {
    sampleK = 405;
    started();
    climb(30, 0.2, 0.2);
    assertFalse(isUp("runaway"));
  }

  @Test
  void aSampleFarAheadThatCoolsIsNoRunaway() {
    sampleK = 450;
    started();
    climb(60, -0.3, 0);
    assertFalse(isUp("runaway"));
  }

  /** Idle: the heater is told nothing. */
  private void idle() {
    put();
    bench.tick();
  }

  @Test
  void anOvenThatRisesByFourKelvinWithItsHeaterOffHasAStuckRelay() {
    idle();
    climb(62, 0, -0.01);
    climb(40, 0, 0.09);
    assertFalse(isUp("heater stuck on"), "up by 3.6 K only");
    climb(10, 0, 0.09);
    assertTrue(isUp("heater stuck on"));
    assertEquals(0, bench.outputs().switches() & InterlockRow.bit(Switch.HEARTBEAT));
  }

  @Test
  void theElementsOwnHeatIsNoStuckRelay() {
    sampleK = 295;
    ovenK = 295;
    started();
    climb(120, 0, 0);
    assertTrue(bench.isOn(Switch.HEATER), "the element must have been hot");
    bench.tick(new Request.Pause(ControlBench.PERSON));
    climb(59, 0.05, 0.5);
    climb(60, 0, 0.001);
    assertFalse(isUp("heater stuck on"));
  }

  @Test
  void aSampleHotterThanTheOvenMayWarmIt() {
    sampleK = 430;
    idle();
    climb(62, 0, 0);
    climb(120, 0, 0.1);
    assertFalse(isUp("heater stuck on"));
  }

  @Test
  void aSlowDriftOfTheRoomIsNoStuckRelay() {
    idle();
    climb(3600, 0.005, 0.005);
    assertFalse(isUp("heater stuck on"), "18 K an hour with the sun is 3 K in ten minutes");
  }

  @Test
  void anOvenThatStandsStillAtFullPowerForFourMinutesHasADeadHeater() {
    sampleK = 295;
    ovenK = 295;
    started();
    // The ramp runs ahead of an oven that does not answer, until all power is asked for.
    double fullS = 0;
    while (bench.outputs().heaterPerMille() < 900 && fullS < 4 * 3600) {
      climb(1, 0, 0);
      fullS++;
    }
    assertTrue(bench.outputs().heaterPerMille() >= 900, "the heater must be told all it may");
    climb(235, 0, 0.01);
    assertFalse(isUp("heater dead"));
    climb(10, 0, 0);
    assertTrue(isUp("heater dead"));
    assertFalse(bench.isOn(Switch.HEATER));
  }

  @Test
  void anOvenThatRisesByThreeKelvinInFourMinutesLives() {
    sampleK = 295;
    ovenK = 295;
    started();
    double waitedS = 0;
    while (bench.outputs().heaterPerMille() < 900 && waitedS < 4 * 3600) {
      climb(1, 0, 0);
      waitedS++;
    }
    climb(900, 0, 3.2 / 240);
    assertFalse(isUp("heater dead"));
  }

  @Test
  void aSensorThatSuddenlyFollowsTheOvenAtOnceHasSlipped() {
    ovenK = 415;
    started();
    climb(1200, 0.05, 0.05);
    assertFalse(isUp("sample sensor loose"));
    climb(60, 0.05 + 13.5 / 60, 0.05);
    climb(540, 0.05, 0.05);
    assertTrue(isUp("sample sensor loose"));
  }

  @Test
  void aSensorThatLagsMuchMoreThanBeforeHasSlipped() {
    ovenK = 410;
    started();
    climb(1200, 0.1, 0.1);
    sampleK = ovenK - 40;
    climb(700, 0.1, 0.1);
    assertTrue(isUp("sample sensor loose"));
  }

  @Test
  void aLagThatChangesByHalfIsNoSlippedSensor() {
    ovenK = 430;
    started();
    climb(1200, 0.1, 0.1);
    sampleK = ovenK - 45;
    climb(700, 0.1, 0.1);
    assertFalse(isUp("sample sensor loose"));
  }

  /** A reaction that warms the sample more and more takes its lag away little by little. */
  @Test
  void aLagThatGoesLittleByLittleIsNoSlippedSensor() {
    ovenK = 430;
    started();
    climb(1200, 0.1, 0.1);
    climb(2400, 0.1, 0.1 - 24.0 / 2400);
    assertFalse(isUp("sample sensor loose"));
  }

  @Test
  void withoutAKnownLagNothingHasSlipped() {
    ovenK = 430;
    started();
    climb(130, 0.1, 0.1);
    sampleK = ovenK - 3;
    climb(1200, 0.1, 0.1);
    assertFalse(isUp("sample sensor loose"));
  }
}
