package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.oven.OvenSimulation;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Heater;

class ModelRegulatorTest {
  private static final double ROOM_K = 295;
  private static final double RATE_K_PER_S = 0.05;
  private static final OvenModel OVEN =
      new OvenModel(0.7, 22, 3, 1700, 0.02, 135, 0.73, 56, 0.64, 8000, 0.07);

  private static TestRig rig(OvenModel model) {
    TestRig rig = new TestRig();
    rig.heater = new Heater(Heater.Actuator.ANALOGUE, 800, 0, 0, 1);
    rig.regulation =
        rig.regulation.withModel(
            new IdentifiedOven(
                model, new double[11], "quartz tube", LocalDate.of(2026, 1, 1), 0.1));
    return rig;
  }

  /** A batch on an oven that is such a model; what it did is kept. */
  private static final class Loop {
    final ControlBench bench;
    private final OvenSimulation oven;
    private final double[] delayed;
    double fastestKPerS;
    double worstLagK;
    double heldBackS;

    Loop(OvenModel known, OvenModel real, Step... steps) {
      bench = new ControlBench(rig(known).build(), TestSteps.recipe(steps));
      oven = new OvenSimulation(real, ROOM_K);
      delayed = new double[1 + (int) (real.deadTimeS() / ControlBench.TICK_S)];
      look();
      bench.start();
    }

    private void look() {
      bench.set(Channel.OVEN_TEMPERATURE, oven.ovenK());
      bench.set(Channel.OVEN_TEMPERATURE_PAIR, oven.ovenK());
      bench.set(Channel.SAMPLE_TEMPERATURE, oven.sampleK());
    }

    double sampleK() {
      return oven.sampleK();
    }

    void tick(Request... requests) {
      int at = bench.millis % 250 == 0 ? (int) (bench.millis / 250 % delayed.length) : 0;
      double duty = delayed[at];
      delayed[at] = bench.outputs().heaterPerMille() / 1000.0;
      oven.step(duty, ROOM_K, ControlBench.TICK_S);
      look();
      double beforeK = bench.state.setpointK();
      bench.tick(requests);
      double nowK = bench.state.setpointK();
      if (beforeK > 0 && nowK > 0) {
        fastestKPerS =
            StrictMath.max(fastestKPerS, StrictMath.abs(nowK - beforeK) / ControlBench.TICK_S);
      }
      boolean heldBack = bench.state.regulator().progress() < 0.999;
      heldBackS += heldBack ? ControlBench.TICK_S : 0;
      if (nowK > 0 && !heldBack) {
        worstLagK = StrictMath.max(worstLagK, StrictMath.abs(nowK - sampleK()));
      }
    }

    Loop untilSoak(double limitS) {
      for (double s = 0; s < limitS && !(bench.state.run() instanceof SoakRun); s += 0.25) {
        tick();
      }
      assertTrue(bench.state.run() instanceof SoakRun, "it is at " + sampleK() + " K");
      return this;
    }
  }

  private static Step[] to(double toK, double rate) {
    return new Step[] {TestSteps.ramp(toK, rate), TestSteps.soak(toK, 1e7, 3)};
  }

  @Test
  void theSampleFollowsARampOfAnOvenThatIsWhatTheModelSays() {
    Loop loop = new Loop(OVEN, OVEN, to(573.15, RATE_K_PER_S)).untilSoak(9000);
    assertTrue(loop.worstLagK < 1, "lag " + loop.worstLagK);
    assertEquals(0, loop.heldBackS);
    double topK = 0;
    for (int i = 0; i < 4 * 3600; i++) {
      loop.tick();
      topK = StrictMath.max(topK, loop.sampleK());
    }
    assertTrue(topK < 573.15 + 0.3, "overshoot " + (topK - 573.15));
    assertEquals(573.15, loop.sampleK(), 0.1);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void aModelThatIsTenPerCentWrongStillRegulates(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    OvenModel real =
        new OvenModel(
            OVEN.heatingKPerS() * random.nextDouble(0.9, 1.1),
            OVEN.elementS() * random.nextDouble(0.9, 1.1),
            OVEN.deadTimeS() * random.nextDouble(0.9, 1.1),
            OVEN.lossS() * random.nextDouble(0.9, 1.1),
            OVEN.lossRadiation(),
            OVEN.vesselS() * random.nextDouble(0.9, 1.1),
            OVEN.vesselRadiation(),
            OVEN.sampleS() * random.nextDouble(0.9, 1.1),
            OVEN.sampleRadiation(),
            OVEN.neckS(),
            OVEN.vesselLoad());
    Loop loop = new Loop(OVEN, real, to(573.15, RATE_K_PER_S)).untilSoak(9000);
    double topK = 0;
    for (int i = 0; i < 4 * 3600; i++) {
      loop.tick();
      topK = StrictMath.max(topK, loop.sampleK());
    }
    assertTrue(loop.worstLagK < 3, "seed " + seed + " lag " + loop.worstLagK);
    assertTrue(topK < 573.15 + 1, "seed " + seed + " overshoot " + (topK - 573.15));
    assertEquals(573.15, loop.sampleK(), 0.1, "seed " + seed);
  }

  @Test
  void theSetpointIsHardlyFasterThanTheRecipeAndNeverBeyondItsEnd() {
    Loop loop = new Loop(OVEN, OVEN, to(500, RATE_K_PER_S)).untilSoak(9000);
    assertTrue(loop.fastestKPerS <= 1.02 * RATE_K_PER_S + 1e-12, "rate " + loop.fastestKPerS);
    assertTrue(loop.fastestKPerS > 0.99 * RATE_K_PER_S, "rate " + loop.fastestKPerS);
    for (int i = 0; i < 4000; i++) {
      loop.tick();
      assertTrue(loop.bench.state.setpointK() <= 500);
    }
    assertEquals(500, loop.bench.state.setpointK());
  }

  /** At the rig's own limit for a ramp there is nothing to catch up with. */
  @Test
  void theSetpointIsNeverFasterThanTheRigsLimit() {
    double limit = rig(OVEN).build().unattended().rampMaxKPerS();
    Loop loop = new Loop(OVEN, OVEN, to(500, limit)).untilSoak(9000);
    assertTrue(loop.fastestKPerS <= limit + 1e-12, "rate " + loop.fastestKPerS);
  }

  /** What the corners cost is made up for on a long ramp. */
  @Test
  void theRoundedSetpointComesUpToTheStraightRampAgain() {
    MovedCourse course = new MovedCourse(OVEN, RegulatorTuning.USUAL, 1, Course.NONE);
    course.restart(300);
    double mostBehindK = 0;
    double h = 1;
    for (int s = 0; s < 5400; s++) {
      course.move(600, RATE_K_PER_S, 1.02 * RATE_K_PER_S, ROOM_K, h);
      mostBehindK = StrictMath.max(mostBehindK, course.lineK - course.setpointK);
    }
    assertEquals(300 + 5400 * RATE_K_PER_S, course.lineK, 1e-6);
    assertTrue(mostBehindK > 3, "it fell behind by " + mostBehindK);
    assertTrue(course.lineK - course.setpointK < 1, "still behind " + course.setpointK);
    assertTrue(course.setpointK <= course.lineK, "never ahead");
  }

  /** A fifth of the power: the ramp is more than the oven can do. */
  @Test
  void aRecipeFasterThanTheOvenWaitsForItAndDoesNotOvershoot() {
    OvenModel weak = new OvenModel(0.14, 22, 3, 1700, 0.02, 135, 0.73, 56, 0.64, 8000, 0.07);
    Loop loop = new Loop(weak, weak, to(440, 0.1)).untilSoak(20_000);
    assertTrue(loop.heldBackS > 60, "held back " + loop.heldBackS + " s");
    double topK = 0;
    for (int i = 0; i < 4 * 3600; i++) {
      loop.tick();
      double lagK = loop.bench.state.setpointK() - loop.sampleK();
      assertTrue(lagK < 4, "the setpoint does not run away: " + lagK);
      topK = StrictMath.max(topK, loop.sampleK());
    }
    assertTrue(topK < 441, "overshoot " + (topK - 440));
  }

  @Test
  void theRuleOfWaiting() {
    assertEquals(1, ModelRegulator.progress(0.5));
    assertEquals(1, ModelRegulator.progress(-3));
    assertEquals(0.5, ModelRegulator.progress(1.2), 1e-12);
    assertEquals(0, ModelRegulator.progress(1.7), 1e-12);
    assertEquals(0, ModelRegulator.progress(30));
  }

  @Test
  void theOvenNeverLeadsByMoreThanItMay() {
    TestRig rig = rig(OVEN);
    ModelRegulator regulator =
        new ModelRegulator(rig.regulation, OVEN, rig.heater, RegulatorTuning.USUAL);
    MovedCourse course = new MovedCourse(OVEN, RegulatorTuning.USUAL, 1, Course.NONE);
    course.restart(500);
    RegulatorState state = RegulatorState.IDLE;
    for (int i = 0; i < 4000; i++) {
      Regulator.Turn turn = regulator.step(state, course.now(), 400, 500 + 80, ROOM_K, 0.25);
      state = turn.state();
    }
    int atLead = regulator.step(state, course.now(), 400, 500 + 80, ROOM_K, 0.25).perMille();
    int beyond = regulator.step(state, course.now(), 400, 500 + 110, ROOM_K, 0.25).perMille();
    assertTrue(beyond < atLead, "less beyond the lead: " + beyond + " of " + atLead);
    assertEquals(0, state.ovenIntegralK(), 100, "the integral of the lead does not wind up");
  }

  @Test
  void aPauseStartsTheCourseAnewFromTheSample() {
    Loop loop = new Loop(OVEN, OVEN, to(500, RATE_K_PER_S)).untilSoak(9000);
    loop.tick(new Request.Pause("Ada"));
    for (int i = 0; i < 4 * 900; i++) {
      loop.tick();
    }
    assertEquals(ControlState.HEATER_OFF, loop.bench.state.setpointK());
    double sampleK = loop.sampleK();
    loop.tick(new Request.Resume("Ada"));
    assertEquals(sampleK, loop.bench.state.setpointK(), 0.2);
    for (int i = 0; i < 4 * 5000; i++) {
      loop.tick();
    }
    assertEquals(500, loop.sampleK(), 0.3);
    assertTrue(loop.fastestKPerS <= 1.02 * RATE_K_PER_S + 1e-12);
  }

  /** The derivatives that drive the heater are those of the setpoint itself. */
  @Test
  void theCoursesDerivativesAreItsOwn() {
    MovedCourse course = new MovedCourse(OVEN, RegulatorTuning.USUAL, 1, Course.NONE);
    course.restart(400);
    double h = 0.25;
    double beforeK = 400;
    double before1 = 0;
    double before2 = 0;
    for (int i = 0; i < 4 * 200; i++) {
      course.move(600, RATE_K_PER_S, RATE_K_PER_S, ROOM_K, h);
      if (i > 40) {
        assertEquals((course.setpointK - beforeK) / h, course.now().rateKPerS(), 1e-9);
        assertEquals(
            (course.now().rateKPerS() - before1) / h, course.now().secondDerivative(), 1e-5);
        assertEquals(
            (course.now().secondDerivative() - before2) / h, course.now().thirdDerivative(), 1e-6);
      }
      beforeK = course.setpointK;
      before1 = course.now().rateKPerS();
      before2 = course.now().secondDerivative();
    }
    assertTrue(before1 > 0.04, "it got going: " + before1);
  }
}
