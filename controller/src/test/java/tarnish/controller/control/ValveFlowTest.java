package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.ValveFlow.Block;
import tarnish.shared.estimate.Estimate;

class ValveFlowTest {
  private static final double NOISE_MOL = 0.5e-6;
  private static final double FLOW_MOL = 60e-6;
  private static final double A = 7e-8;
  private static final ValveFit.Beforehand LEAN =
      new ValveFit.Beforehand(
          new Estimate(4e-8, 3.2e-8), NOISE_MOL * NOISE_MOL, new Estimate(0.05, 0.0005));
  private static final ValveFlow.Appetite UNSEEN = ValveFlow.Appetite.UNKNOWN;
  private static final HeatBalance COLD = HeatBalance.NONE;

  private static double gaussian(SplittableRandom random) {
    double sum = -6;
    for (int i = 0; i < 12; i++) {
      sum += random.nextDouble();
    }
    return sum;
  }

  /** A block of 16 pulses through a valve of ratio r, of which {@code hiddenMol} were taken up. */
  private static Block block(double r, double hiddenMol, SplittableRandom random) {
    double flow = 16 * FLOW_MOL;
    double seen = 5e-6;
    double step = r * flow - hiddenMol + 4 * NOISE_MOL * gaussian(random);
    double heat = (hiddenMol + seen) / A + 15 * gaussian(random);
    return new Block(16, flow, step, seen, heat, 8, UNSEEN, 0, false);
  }

  private static Block[] batch(double r, int blocks, SplittableRandom random) {
    Block[] all = new Block[blocks];
    for (int i = 0; i < blocks; i++) {
      all[i] = block(r, 25e-6 * StrictMath.exp(-i / 6.0), random);
    }
    return all;
  }

  @Test
  void theHeatTellsWhatTheFirstPulsesHidOnceLaterOnesHideLess() {
    for (long seed = 1; seed <= 100; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double r = 1 + 0.05 * gaussian(random);
      ValveFit fit = ValveFit.of(batch(r, 24, random), LEAN);
      assertEquals(r, fit.ratio(), 4 * fit.ratioUncertainty(), "seed " + seed);
      assertTrue(fit.ratioUncertainty() < 0.004, "seed " + seed + ": " + fit);
      assertEquals(
          A, fit.molPerKelvinSecond(), 4 * fit.molPerKelvinSecondUncertainty(), "seed " + seed);
    }
  }

  /** Of 200 intervals 190 hold the truth on average, with a standard deviation of 3. */
  @Test
  void theStatedUncertaintyOfTheRatioIsTrue() {
    int within = 0;
    for (long seed = 1; seed <= 200; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double r = 1 + 0.05 * gaussian(random);
      ValveFit fit = ValveFit.of(batch(r, 30, random), LEAN);
      within += StrictMath.abs(fit.ratio() - r) <= 1.96 * fit.ratioUncertainty() ? 1 : 0;
    }
    assertTrue(within >= 181, within + " of 200");
  }

  /** All alike: they may have hidden nothing or everything, and the doubt says so. */
  @Test
  void blocksThatAreAllAlikeLeaveTheDoubtThatTheyShould() {
    SplittableRandom random = new SplittableRandom(7);
    Block[] alike = {block(1, 25e-6, random), block(1, 25e-6, random), block(1, 25e-6, random)};
    ValveFit fit = ValveFit.of(alike, LEAN);
    assertTrue(fit.ratioUncertainty() > 0.004, fit.toString());
    assertEquals(1, fit.ratio(), 2 * fit.ratioUncertainty());
  }

  @Test
  void withoutPulsesTheRigFileIsBelieved() {
    assertEquals(1, ValveFlow.UNKNOWN.ratio());
    assertEquals(0, ValveFlow.UNKNOWN.hiddenMol(ValveFlow.UNKNOWN));
    assertEquals(0.055, ValveFit.of(new Block[0], LEAN).ratioUncertainty(), 1e-12);
  }

  @Test
  void manyPulsesKeepTheirSumsInFewBlocks() {
    ValveFlow valve = ValveFlow.UNKNOWN;
    for (int i = 0; i < 5000; i++) {
      valve = valve.with(FLOW_MOL, 0.95 * FLOW_MOL, 0, COLD, UNSEEN, 0, LEAN);
    }
    assertEquals(5000, valve.pulses());
    assertTrue(valve.blocks().length <= 64, valve.blocks().length + " blocks");
    int pulses = 0;
    for (Block b : valve.blocks()) {
      pulses += b.pulses();
    }
    assertEquals(5000, pulses);
    assertEquals(0.95, valve.ratio(), 1e-3);
    assertEquals(0, valve.hiddenMol(valve), 1e-3 * valve.flowMol());
  }

  @Test
  void afterTimeApartTheNextPulseOpensABlockOfItsOwn() {
    ValveFlow valve = ValveFlow.UNKNOWN.with(FLOW_MOL, FLOW_MOL, 0, COLD, UNSEEN, 0, LEAN);
    ValveFlow apart = valve.marked(0, COLD).with(FLOW_MOL, FLOW_MOL, 0, COLD, UNSEEN, 0, LEAN);
    assertEquals(1, valve.with(FLOW_MOL, FLOW_MOL, 0, COLD, UNSEEN, 0, LEAN).blocks().length);
    assertEquals(2, apart.blocks().length);
  }
}
