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
    raw.good(SAMPLE, sampleK);
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
}
