package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;

class PlausibilityTest {
  private static final Channel SAMPLE = Channel.SAMPLE_TEMPERATURE;
  private static final RigDescription RIG = new TestRig().build();

  private final PlausibilityRules rules = PlausibilityRules.of(RIG);
  private final Readings raw = new Readings(RIG.resolutions());
  private final SplittableRandom random = new SplittableRandom(7);
  private Plausibility plausibility = Plausibility.unseen();
  private long millis;

  private void tick(double sampleK) {
    tick(SAMPLE, sampleK);
  }

  private void tick(Channel channel, double value) {
    raw.good(channel, value);
    plausibility = plausibility.step(rules, raw, millis + 250, millis);
    millis += 250;
  }

  private double noisy(double valueK) {
    return valueK + 0.1 * (random.nextDouble() - 0.5);
  }

  @Test
  void aValueThatMovesAsALiveSensorDoesIsBelievedAndCostsNothing() {
    for (int i = 0; i < 20_000; i++) {
      tick(noisy(400 + i * 0.02));
      assertNull(plausibility.doubt(SAMPLE), "tick " + i);
      assertSame(raw, plausibility.believed(raw));
    }
  }

  @Test
  void aValueThatStandsStillIsFrozenUntilItMovesAgain() {
    tick(noisy(400));
    for (int i = 0; i < 200; i++) {
      tick(400.05);
    }
    assertEquals(BadReason.FROZEN, plausibility.doubt(SAMPLE));
    assertTrue(!plausibility.believed(raw).isGood(SAMPLE));
    assertTrue(raw.isGood(SAMPLE), "the record keeps what the device said");
    tick(400.5);
    assertNull(plausibility.doubt(SAMPLE));
  }

  @Test
  void aLeapThatNoBenchCanMakeIsNotBelievedAndOneStrayValueIsForgotten() {
    tick(400);
    tick(460);
    assertEquals(BadReason.JUMPED, plausibility.doubt(SAMPLE));
    tick(noisy(400));
    assertNull(plausibility.doubt(SAMPLE));
  }

  @Test
  void aLeapThatStaysIsAcceptedAfterItHasTripped() {
    tick(400);
    int ticks = 0;
    do {
      tick(noisy(460));
      ticks++;
    } while (plausibility.doubt(SAMPLE) == BadReason.JUMPED);
    assertTrue(ticks > 4 && ticks < 20, ticks + " ticks: longer than the delay of a lost sensor");
  }

  @Test
  void afterAGapNothingIsTakenForALeapOrForStandingStill() {
    tick(400);
    millis += 3_600_000;
    raw.good(SAMPLE, 300);
    plausibility = plausibility.step(rules, raw, millis, millis - 3_600_000);
    assertNull(plausibility.doubt(SAMPLE));
  }

  @Test
  void aSensorWithoutNoiseMayStandStill() {
    TestRig quiet = new TestRig();
    quiet.temperatureNoiseK = 0;
    assertEquals(0, PlausibilityRules.of(quiet.build()).stillMillis(SAMPLE.ordinal()));
    assertTrue(
        InterlockTable.missing(quiet.build()).stream()
            .anyMatch(
                row -> row.sentence().startsWith("sample temperature frozen: not available")));
  }

  @Test
  void aSensorThatStandsStillForExactlyItsWindowIsFrozen() {
    tick(400);
    for (int i = 1; i < 20; i++) {
      tick(400);
      assertNull(plausibility.doubt(SAMPLE), "after " + i * 250 + " ms");
    }
    tick(400);
    assertEquals(BadReason.FROZEN, plausibility.doubt(SAMPLE), "after 5 s");
  }

  /** Half a step is half the noise of this gauge: it may stand still for 7.196 s. */
  @Test
  void aPressureGaugeFreezesByItsOwnWindowAndTheOthersAreStillBelieved() {
    raw.good(SAMPLE, 400);
    tick(Channel.VESSEL_PRESSURE, 50_000);
    for (int i = 1; i < 29; i++) {
      raw.good(SAMPLE, noisy(400));
      tick(Channel.VESSEL_PRESSURE, 50_000);
      assertNull(plausibility.doubt(Channel.VESSEL_PRESSURE), "after " + i * 250 + " ms");
    }
    raw.good(SAMPLE, noisy(400));
    tick(Channel.VESSEL_PRESSURE, 50_000);
    assertEquals(BadReason.FROZEN, plausibility.doubt(Channel.VESSEL_PRESSURE), "after 7.25 s");
    assertNull(plausibility.doubt(SAMPLE));
    Readings believed = plausibility.believed(raw);
    assertEquals((byte) BadReason.FROZEN.ordinal(), believed.qualityCode(Channel.VESSEL_PRESSURE));
    assertTrue(believed.isGood(SAMPLE));
  }

  @Test
  void aMoveAtTheFastestThatABenchCanIsBelievedAndALittleMoreIsNot() {
    tick(400);
    tick(410);
    assertNull(plausibility.doubt(SAMPLE), "10 K in 250 ms");
    tick(420.01);
    assertEquals(BadReason.JUMPED, plausibility.doubt(SAMPLE));
  }

  @Test
  void aSmallLeapOfASensorThatHasMovedIsSeenToo() {
    for (int i = 0; i < 10; i++) {
      tick(noisy(400));
    }
    tick(415);
    assertEquals(BadReason.JUMPED, plausibility.doubt(SAMPLE), "15 K in 250 ms");
  }

  @Test
  void aSensorThatMovedInItsWindowMayReadTheSameAtBothEndsOfIt() {
    tick(400);
    for (int i = 1; i < 20; i++) {
      tick(400.05);
    }
    tick(400);
    assertNull(plausibility.doubt(SAMPLE));
  }

  @Test
  void aLeapAnHourIntoTheBatchIsDoubtedForThreeSecondsAndThenAccepted() {
    millis = 3_600_000;
    tick(Channel.VESSEL_PRESSURE, 50_000);
    for (int i = 0; i <= 12; i++) {
      tick(Channel.VESSEL_PRESSURE, 95_000 + 10 * i);
      assertEquals(
          BadReason.JUMPED, plausibility.doubt(Channel.VESSEL_PRESSURE), i * 250 + " ms later");
    }
    tick(Channel.VESSEL_PRESSURE, 95_000);
    assertNull(plausibility.doubt(Channel.VESSEL_PRESSURE), "3.25 s later");
    tick(Channel.VESSEL_PRESSURE, 95_010);
    assertNull(plausibility.doubt(Channel.VESSEL_PRESSURE), "it now stands there");
  }

  @Test
  void aSecondLeapIsDoubtedLikeTheFirst() {
    tick(400);
    tick(460);
    for (int i = 0; i < 240; i++) {
      tick(noisy(400));
    }
    assertNull(plausibility.doubt(SAMPLE));
    tick(460);
    assertEquals(BadReason.JUMPED, plausibility.doubt(SAMPLE));
  }

  @Test
  void aTickThatCameASecondLateStillFindsALeapAndOneLaterThanThatDoesNot() {
    for (long lateMillis : new long[] {1000, 1001}) {
      Plausibility from = Plausibility.unseen();
      raw.good(SAMPLE, 400);
      from = from.step(rules, raw, 250, 0);
      raw.good(SAMPLE, 460);
      from = from.step(rules, raw, 250 + lateMillis, 250);
      assertEquals(lateMillis == 1000 ? BadReason.JUMPED : null, from.doubt(SAMPLE));
    }
  }

  @Test
  void anEmptyVesselFirstSeenAnHourIntoTheBatchIsNotTakenForAFrozenGauge() {
    millis = 3_600_000;
    tick(Channel.VESSEL_PRESSURE, 0);
    assertNull(plausibility.doubt(Channel.VESSEL_PRESSURE));
  }

  @Test
  void whatADeviceItselfCallsBadKeepsItsReason() {
    tick(400);
    tick(460);
    raw.bad(SAMPLE, BadReason.OPEN_CIRCUIT);
    assertEquals(
        (byte) BadReason.OPEN_CIRCUIT.ordinal(), plausibility.believed(raw).qualityCode(SAMPLE));
  }

  /** A forecast steps on from the state of the live bench; the live bench must not notice. */
  @Test
  void whatIsTriedOutFromAStateLeavesThatStateAsItWas() {
    leavesThatStateAsItWas(80);
  }

  @Test
  void aTriedOutLeapThatIsStillDoubtedLeavesTheStateAsItWas() {
    leavesThatStateAsItWas(5);
  }

  private void leavesThatStateAsItWas(int triedTicks) {
    tick(400);
    tick(400.05);
    final Plausibility live = plausibility;
    final long liveMillis = millis;
    for (int i = 0; i < triedTicks; i++) {
      tick(noisy(460));
    }
    plausibility = live;
    millis = liveMillis;
    tick(noisy(400));
    assertNull(plausibility.doubt(SAMPLE), "the live sample never leapt");
    for (int i = 0; i < 40; i++) {
      tick(noisy(400));
    }
    tick(460);
    assertEquals(BadReason.JUMPED, plausibility.doubt(SAMPLE), "and this is its first leap");
  }

  @Test
  void aTriedOutStandstillDoesNotMoveTheWindowOfTheLiveBench() {
    tick(400);
    final Plausibility live = plausibility;
    final long liveMillis = millis;
    for (int i = 0; i < 30; i++) {
      tick(noisy(400));
    }
    plausibility = live;
    millis = liveMillis;
    for (int i = 0; i < 20; i++) {
      assertNull(plausibility.doubt(SAMPLE));
      tick(400);
    }
    assertEquals(BadReason.FROZEN, plausibility.doubt(SAMPLE));
  }
}
