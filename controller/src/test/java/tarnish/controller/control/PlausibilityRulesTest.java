package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;

class PlausibilityRulesTest {
  private static final int PRESSURE = Channel.VESSEL_PRESSURE.ordinal();
  private static final Set<Channel> CONTACTS = EnumSet.of(Channel.EMERGENCY_STOP, Channel.DOOR);

  /** How long a pressure gauge whose half step is {@code halfStep} of its noise may stand still. */
  private static long stillMillis(double halfStep) {
    TestRig rig = new TestRig();
    rig.pressureNoisePa = 10;
    rig.pressureResolutionPa = 2 * halfStep * rig.pressureNoisePa;
    return PlausibilityRules.of(rig.build()).stillMillis(PRESSURE);
  }

  /**
   * With p, the chance that normal noise passes the half step on either side, n = ln(1e-12) / ln(1
   * - p) readings of 250 ms each stand still by chance once in 1e12: 0.617075, 0.317311, 0.133614,
   * 0.05 and 0.0124193 for the half steps below (tables of the normal distribution).
   */
  @Test
  void theTimeASensorMayStandStillFollowsFromItsNoiseAndItsStep() {
    assertEquals(7_196, stillMillis(0.5), 1);
    assertEquals(18_097, stillMillis(1), 1);
    assertEquals(48_163, stillMillis(1.5), 1);
    assertEquals(134_671, stillMillis(1.959964), 2);
    assertEquals(552_749, stillMillis(2.5), 40);
  }

  @Test
  void aSensorMayAlwaysStandStillForFiveSeconds() {
    assertEquals(5_000, stillMillis(0.01));
  }

  @Test
  void aSensorThatMayStandStillForMoreThanTenMinutesIsNeverCalledFrozen() {
    assertEquals(0, stillMillis(2.575829), "11 min 27 s");
  }

  @Test
  void noTemperatureMovesFasterThanFortyKelvinPerSecondAndNoPressureThan1600MillibarPerSecond() {
    PlausibilityRules rules = PlausibilityRules.of(new TestRig().build());
    assertEquals(10, rules.mostPerTick(Channel.SAMPLE_TEMPERATURE.ordinal()), 1e-12);
    assertEquals(40_000, rules.mostPerTick(PRESSURE), 1e-9);
  }

  @Test
  void aChangedBottleAndTheWeatherMayLeap() {
    PlausibilityRules rules = PlausibilityRules.of(new TestRig().build());
    assertEquals(0, rules.mostPerTick(Channel.SUPPLY_PRESSURE.ordinal()));
    assertEquals(0, rules.mostPerTick(Channel.ROOM_PRESSURE.ordinal()));
  }

  @Test
  void everySensorButTheContactsIsWatched() {
    PlausibilityRules rules = PlausibilityRules.of(new TestRig().build());
    assertEquals(
        EnumSet.complementOf(EnumSet.copyOf(CONTACTS)), EnumSet.copyOf(List.of(rules.watched())));
  }

  @Test
  void aQuietThermometerIsStillWatchedForLeaps() {
    TestRig quiet = new TestRig();
    quiet.temperatureNoiseK = 0;
    List<Channel> watched = List.of(PlausibilityRules.of(quiet.build()).watched());
    assertTrue(watched.contains(Channel.SAMPLE_TEMPERATURE));
  }
}
