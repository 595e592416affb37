package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;

/** The limits of the invented rig: unattended 560 °C, 1060 mbar, 6 K/min, pulses of 20 mbar. */
class ChangeLimitsTest {
  private static final RigDescription RIG = new TestRig().build();
  private static final double COOLEST_K = 288.15;
  private static final double HOTTEST_K = RIG.unattended().sampleMaxK();
  private static final double FASTEST = RIG.unattended().rampMaxKPerS();

  private static String why(Step step) {
    return ChangeLimits.refusal(step, RIG);
  }

  private static void allowed(Step step) {
    assertEquals("", why(step), step.toString());
  }

  private static void refused(Step step, String... words) {
    for (String word : words) {
      assertTrue(why(step).contains(word), step + ": '" + why(step) + "' lacks " + word);
    }
  }

  private static List<Step> at(double temperatureK) {
    return List.of(
        TestSteps.ramp(temperatureK, 0.05),
        TestSteps.soak(temperatureK, 600, 3),
        TestSteps.cool(temperatureK));
  }

  private static Step cooling(double rateKPerS) {
    return new Step.Cool(TestSteps.unattended("Cool"), 320, OptionalDouble.of(rateKPerS));
  }

  private static Step dose(double pulsePa, double toPa) {
    return new Step.Dose(TestSteps.unattended("Dose"), pulsePa, toPa, 50, 0.5, 0.5, 60, 1800);
  }

  private static Step held(double atK, double holdPa) {
    return new Step.Soak(TestSteps.holding("Held", holdPa), atK, 600, 3);
  }

  @Test
  void temperaturesFrom15CelsiusToTheLimitOfTheRigAreAllowedAndNoneBeyond() {
    for (double edgeK : new double[] {COOLEST_K, HOTTEST_K}) {
      at(edgeK).forEach(ChangeLimitsTest::allowed);
    }
    for (double beyondK :
        new double[] {StrictMath.nextDown(COOLEST_K), StrictMath.nextUp(HOTTEST_K), Double.NaN}) {
      at(beyondK).forEach(step -> refused(step, "from 15 °C to 560 °C", "the unattended limit"));
    }
  }

  @Test
  void aStepThatHasAPersonBesideItHasTheAttendedLimit() {
    double attendedK = RIG.attended().sampleMaxK();
    allowed(new Step.Soak(TestSteps.attended("Soak"), attendedK, 600, 3));
    refused(
        new Step.Soak(TestSteps.attended("Soak"), StrictMath.nextUp(attendedK), 600, 3),
        "600 °C",
        "the attended limit");
  }

  @Test
  void aRampOrACoolingMayBeAsFastAsTheRigAllowsButMustMove() {
    allowed(TestSteps.ramp(500, FASTEST));
    allowed(cooling(FASTEST));
    allowed(TestSteps.ramp(500, 1e-6));
    for (double wrong : new double[] {0, StrictMath.nextUp(FASTEST), Double.NaN}) {
      refused(TestSteps.ramp(500, wrong), "above 0 and at most 6 K/min", "the unattended limit");
      refused(cooling(wrong), "above 0 and at most 6 K/min");
    }
  }

  @Test
  void aSoakMayLastFromASecondToAHundredDays() {
    double longestS = 100 * 86_400;
    allowed(TestSteps.soak(500, 1, 3));
    allowed(TestSteps.soak(500, longestS, 3));
    for (double wrong :
        new double[] {StrictMath.nextDown(1.0), StrictMath.nextUp(longestS), Double.NaN}) {
      refused(TestSteps.soak(500, wrong, 3), "from 1 s to 100 days");
    }
  }

  @Test
  void aPulseMayBeAsLargeAsTheRigAllowsButNotNothing() {
    allowed(dose(2000, 50_000));
    for (double wrong : new double[] {0, StrictMath.nextUp(2000.0), Double.NaN}) {
      refused(dose(wrong, 50_000), "above 0 and at most 20 mbar");
    }
  }

  @Test
  void aPulseIsSmallerThanThePressureItLeadsTo() {
    allowed(dose(1000, 1001));
    refused(dose(1000, 1000), "A pulse must be less");
  }

  /** The last pulse may begin just below the goal. */
  @Test
  void theLastPulseMustStayWithinThePressureLimit() {
    allowed(dose(2000, 104_000));
    refused(dose(2000, 104_001), "at or below 1060 mbar", "unattended", "the last pulse included");
  }

  @Test
  void aHeldPressureIsAboveNothingAndWithinTheLimitOfTheRig() {
    allowed(held(500, 106_000));
    allowed(held(500, 100));
    refused(held(500, 106_001), "at or below 1060 mbar", "the unattended limit");
    refused(held(500, 0), "A pressure must be above 0");
    refused(held(500, Double.NaN), "A pressure must be above 0");
  }

  /** A rig whose own limit is far away, so that its source and its tube come first. */
  private static String whyOnAStrongRig(Step step) {
    TestRig strong = new TestRig();
    Limits u = strong.unattended;
    strong.unattended =
        new Limits(u.sampleMaxK(), u.ovenMaxK(), u.sealMaxK(), 1e6, u.rampMaxKPerS(), 2000);
    return ChangeLimits.refusal(step, strong.build());
  }

  @Test
  void aPressureNeedsASourceThatIsHigher() {
    assertEquals("", whyOnAStrongRig(held(800, 149_990)));
    assertEquals("The oxygen source gives only 1500 mbar.", whyOnAStrongRig(held(800, 150_000)));
    assertEquals("", whyOnAStrongRig(dose(1000, 149_990)));
    assertEquals("The oxygen source gives only 1500 mbar.", whyOnAStrongRig(dose(1000, 150_000)));
  }

  /**
   * Thin-wall formula of tube makers, S w / r with S = 6.895 MPa: 2 mm of fused quartz around 44 mm
   * bear 626.8 kPa over the 101.3 kPa of the room, 728.1 kPa.
   */
  @Test
  void aHeldPressureIsNoMoreThanTheTubeBears() {
    assertTrue(whyOnAStrongRig(held(800, 728_100)).startsWith("The oxygen source"));
    assertEquals(
        "The vessel bears at most 7281 mbar at that temperature.",
        whyOnAStrongRig(held(800, 728_200)));
  }

  @Test
  void aRampWithAHeldPressureIsHeldAgainstBoth() {
    StepCommon full = TestSteps.holding("Held", 106_001);
    refused(new Step.Ramp(full, 500, 0.05), "1060 mbar");
    refused(new Step.Ramp(full, 900, 0.05), "560 °C");
  }
}
