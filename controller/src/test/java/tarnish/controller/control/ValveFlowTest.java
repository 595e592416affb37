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
    assertEquals(0, ValveFit.of(new Block[0], LEAN).ratioPerMol());
  }

  @Test
  void manyPulsesKeepTheirSumsInFewBlocks() {
    ValveFlow valve = ValveFlow.UNKNOWN;
    for (int i = 0; i < 5000; i++) {
      valve = valve.with(FLOW_MOL, 0.95 * FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
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
    ValveFlow valve = ValveFlow.UNKNOWN.with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
    ValveFlow apart =
        valve.marked(until(0, COLD)).with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
    assertEquals(
        1, valve.with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN).blocks().length);
    assertEquals(2, apart.blocks().length);
  }

  /** A balance that has counted heat for a while: the sample stands 2 K above what it should. */
  private static HeatBalance heated(int seconds) {
    Plan plan = Plan.of(TestSteps.recipe(TestSteps.ask()), new TestRig().build());
    HeatBalance balance = HeatBalance.NONE;
    for (int i = 0; i < 1000 + seconds; i++) {
      balance = balance.step(i == 0 ? 300 : 302, 300, 300, 1, i < 1000, plan);
    }
    return balance;
  }

  @Test
  void aBlockHoldsWhatWasSeenAndHeatedSinceTheMarkBeforeIt() {
    HeatBalance first = heated(2000);
    HeatBalance then = heated(3000);
    assertTrue(then.integralKs() != first.integralKs());
    ValveFlow.Appetite appetite = new ValveFlow.Appetite(1, 2e-7, 3e-7, 2);
    ValveFlow valve =
        ValveFlow.UNKNOWN
            .marked(until(4e-6, first))
            .with(6e-5, 5e-5, until(7e-6, then), appetite, 9e-5, LEAN);
    Block block = valve.blocks()[0];
    assertEquals(1, block.pulses());
    assertEquals(6e-5, block.flowMol());
    assertEquals(5e-5, block.stepMol());
    assertEquals(3e-6, block.seenMol(), 1e-18);
    assertEquals(then.integralKs() - first.integralKs(), block.heatKs(), 1e-12);
    assertEquals(
        then.integralUncertaintyKs() - first.integralUncertaintyKs(), block.errorKs(), 1e-12);
    assertEquals(appetite, block.appetite());
    assertEquals(9e-5, block.otherOxygenMol());
    assertEquals(7e-6, valve.mark().seenMol());
    assertEquals(then.integralKs(), valve.mark().heatKs());
    assertEquals(then.integralUncertaintyKs(), valve.mark().heatErrorKs());
    assertEquals(6e-5, valve.flowMol());
    assertEquals(5e-5, valve.stepMol());
  }

  /** The oxygen that was there before counts once, before the first pulse of a block. */
  @Test
  void pulsesThatFollowAddUpInTheirBlock() {
    ValveFlow.Appetite one = new ValveFlow.Appetite(1, 2e-7, 3e-7, 2);
    ValveFlow.Appetite other = new ValveFlow.Appetite(1, 5e-7, 7e-7, 1);
    ValveFlow valve =
        ValveFlow.UNKNOWN
            .with(6e-5, 5e-5, until(7e-6, COLD), one, 9e-5, LEAN)
            .with(8e-5, 7e-5, until(9e-6, COLD), other, 4e-5, LEAN);
    assertEquals(1, valve.blocks().length);
    Block block = valve.blocks()[0];
    assertEquals(2, block.pulses());
    assertEquals(14e-5, block.flowMol(), 1e-18);
    assertEquals(12e-5, block.stepMol(), 1e-18);
    assertEquals(9e-6, block.seenMol(), 1e-18);
    assertEquals(9e-5, block.otherOxygenMol(), 1e-18);
    assertEquals(2, block.appetite().pairs());
    assertEquals(7e-7, block.appetite().beforeMolPerS(), 1e-18);
    assertEquals(10e-7, block.appetite().afterMolPerS(), 1e-18);
    assertEquals(3, block.appetite().exchanges());
    assertEquals(14e-5, valve.flowMol(), 1e-18);
    assertEquals(2, valve.pulses());
  }

  @Test
  void mergedBlocksKeepTheHeatAndItsErrorOfBoth() {
    Block a = new Block(1, 1, 2, 3, 4, 5, UNSEEN, 6, false);
    Block b = new Block(2, 10, 20, 30, 40, 50, UNSEEN, 60, true);
    assertEquals(new Block(3, 11, 22, 33, 44, 55, UNSEEN, 66, true), a.plus(b));
  }

  private static ValveFlow.Until until(double seenMol, HeatBalance heat) {
    return ValveFlow.Until.of(seenMol, heat, GasErrors.NONE);
  }

  /** Where r follows the gas, what the gauge saw too much was hidden too little. */
  @Test
  void anErrorOfTheGasThatTheValveWasLearntByDoesNotGetThrough() {
    ValveFit byTheGas = new ValveFit(1, 0.01, A, 1e-9, 1 / 2e-3);
    GasErrors covered = new GasErrors(4e-6, 2e-6, 9e-14);
    ValveFlow valve =
        new ValveFlow(
            new Block[0], 2e-3, 2e-3, 20, ValveFlow.Until.BEGINNING, covered, 0, byTheGas);
    GasErrors none = valve.through(covered, 2e-3);
    assertEquals(0, none.leakMol(), 1e-20);
    assertEquals(0, none.filledMol(), 1e-20);
    assertEquals(0, none.variance(), 1e-26);
    GasErrors later = valve.through(covered.plus(new GasErrors(1e-6, 3e-6, 4e-14)), 2e-3);
    assertEquals(1e-6, later.leakMol(), 1e-18);
    assertEquals(3e-6, later.filledMol(), 1e-18);
    GasErrors half = valve.through(new GasErrors(3e-6, 0, 9e-14), 1e-3);
    assertEquals(3e-6 - 2e-6, half.leakMol(), 1e-18);
    assertEquals(9e-14 / 4, half.variance(), 1e-26);
  }

  @Test
  void whereTheValveIsKnownOtherwiseAllErrorsOfTheGasGetThrough() {
    ValveFit otherwise = new ValveFit(1, 0.01, A, 1e-9, 0);
    GasErrors covered = new GasErrors(4e-6, 2e-6, 9e-14);
    ValveFlow valve =
        new ValveFlow(
            new Block[0], 2e-3, 2e-3, 20, ValveFlow.Until.BEGINNING, covered, 0, otherwise);
    assertEquals(covered, valve.through(covered, 2e-3));
  }

  /** Nothing is hidden and nothing warms: only the steps tell r, so it follows them. */
  @Test
  void theRatioOfAValveKnownByItsStepsFollowsAnErrorOfTheGas() {
    ValveFlow valve = pulses(200);
    assertEquals(1, valve.fit().ratioPerMol() * valve.flowMol(), 0.05);
    ValveFlow first = pulses(1);
    assertTrue(first.fit().ratioPerMol() >= 0);
  }

  @Test
  void errorsOfTimeApartAreNotThoseOfTheValve() {
    ValveFlow.Until begun = new ValveFlow.Until(0, 0, 0, new GasErrors(5e-6, 1e-6, 1e-14));
    ValveFlow.Until ended = new ValveFlow.Until(0, 0, 0, new GasErrors(7e-6, 4e-6, 3e-14));
    GasErrors covered =
        ValveFlow.UNKNOWN.marked(begun).with(FLOW_MOL, FLOW_MOL, ended, UNSEEN, 0, LEAN).covered();
    assertEquals(2e-6, covered.leakMol(), 1e-18);
    assertEquals(3e-6, covered.filledMol(), 1e-18);
    assertEquals(2e-14, covered.variance(), 1e-26);
  }

  private static ValveFlow pulses(int count) {
    ValveFlow valve = ValveFlow.UNKNOWN;
    for (int i = 0; i < count; i++) {
      valve = valve.with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
    }
    return valve;
  }

  @Test
  void sixteenPulsesMakeABlockAndAKnownValve() {
    assertEquals(1, pulses(16).blocks().length);
    assertEquals(2, pulses(17).blocks().length);
    assertTrue(pulses(16).isKnown());
    assertTrue(!pulses(15).isKnown());
  }

  /** 64 blocks of 16 are 1024 pulses; the next one halves them, and then 32 fill a block. */
  @Test
  void aFullListOfBlocksIsMergedInPairsAndThenFilledMoreSlowly() {
    ValveFlow full = pulses(1024);
    assertEquals(64, full.blocks().length);
    assertEquals(0, full.merges());
    ValveFlow merged = full.with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
    assertEquals(1, merged.merges());
    assertEquals(33, merged.blocks().length);
    assertEquals(32, merged.blocks()[0].pulses());
    assertEquals(1, merged.blocks()[32].pulses());
    ValveFlow on = merged;
    for (int i = 0; i < 31; i++) {
      on = on.with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
    }
    assertEquals(33, on.blocks().length);
    assertEquals(32, on.blocks()[32].pulses());
    on = on.with(FLOW_MOL, FLOW_MOL, until(0, COLD), UNSEEN, 0, LEAN);
    assertEquals(34, on.blocks().length);
  }

  @Test
  void whatWasHiddenIsCountedAnewAsTheValveIsKnownLater() {
    ValveFlow early = pulses(4);
    ValveFit better = new ValveFit(1.05, 0.01, A, 1e-9, 0);
    ValveFlow later =
        new ValveFlow(
            early.blocks(), 0, 0, 0, ValveFlow.Until.BEGINNING, GasErrors.NONE, 0, better);
    assertEquals(0.05 * 4 * FLOW_MOL, early.hiddenMol(later), 1e-15);
    // 1 % of the flow, and 1.5 % of what was hidden for the heat balance.
    assertEquals(
        StrictMath.hypot(0.01 * 2e-3, 0.015 * 1e-4), later.hiddenUncertaintyMol(2e-3, 1e-4), 1e-15);
  }

  @Test
  void aMarkClosesTheBlockAndMovesTheMarksOnly() {
    ValveFlow valve = pulses(3);
    HeatBalance heat = heated(500);
    ValveFlow marked = valve.marked(until(5e-6, heat));
    assertTrue(marked.blocks()[0].closed());
    assertTrue(!valve.blocks()[0].closed(), "the old one stays as it was");
    assertEquals(3, marked.blocks()[0].pulses());
    assertEquals(5e-6, marked.mark().seenMol());
    assertEquals(heat.integralKs(), marked.mark().heatKs());
    assertEquals(heat.integralUncertaintyKs(), marked.mark().heatErrorKs());
    assertEquals(valve.fit(), marked.fit());
    assertTrue(marked.blocks() == marked.marked(until(5e-6, heat)).blocks(), "closed once for all");
    assertEquals(0, ValveFlow.UNKNOWN.marked(until(5e-6, heat)).blocks().length);
  }
}
