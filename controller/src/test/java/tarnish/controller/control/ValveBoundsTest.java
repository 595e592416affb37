package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.controller.control.ValveFlow.Appetite;
import tarnish.controller.control.ValveFlow.Block;
import tarnish.shared.estimate.Estimate;

class ValveBoundsTest {
  private static final double RATIO = 1.05;
  private static final double FLOW_MOL = 1e-3;
  private static final double NOISE_MOL2 = 1e-16;
  private static final double PRIOR = 0.055;
  private static final Appetite NOT_KNOWN = Appetite.UNKNOWN;

  /** 16 pulses whose rate fell from 1e-7 mol/s to a hundredth of it before the next. */
  private static final Appetite HUNGRY = new Appetite(16, 16e-9, 16e-7, 0);

  private static ValveFit.Beforehand source(double oxygen) {
    return new ValveFit.Beforehand(
        new Estimate(4e-8, 6e-8), NOISE_MOL2, new Estimate(oxygen, 1e-5));
  }

  /** Pulses of which {@code takenShare} of all oxygen was taken up, {@code seenShare} seen. */
  private static Block block(
      double oxygen, double takenShare, double seenShare, Appetite appetite) {
    double let = oxygen * RATIO * FLOW_MOL;
    double step = RATIO * FLOW_MOL - (takenShare - seenShare) * let;
    return new Block(16, FLOW_MOL, step, seenShare * let, 0, 0, appetite, 0, false);
  }

  private static Estimate ratio(double oxygen, Block... blocks) {
    return new ValveBounds(blocks, source(oxygen)).within(1, PRIOR);
  }

  @Test
  void pulsesThatWereTakenUpWholeTellTheFlowByTheirInertShare() {
    Block whole = block(0.05, 1, 0.6, HUNGRY);
    Estimate found = ratio(0.05, whole, whole, whole, whole);
    assertEquals(RATIO, found.value(), 3 * found.standardUncertainty());
    assertTrue(found.standardUncertainty() < 0.002, found.toString());
  }

  /** Anything between what was seen and all that came: uniform, of half width 0.4 times 5 %. */
  @Test
  void whenNobodyKnowsWhatIsLeftAllThatIsPossibleStaysIn() {
    Block hidden = block(0.05, 0.8, 0.4, NOT_KNOWN);
    Estimate found = ratio(0.05, hidden, hidden, hidden, hidden);
    double least = RATIO * (1 - 0.05 * 0.4);
    double most = RATIO * (1 - 0.05 * 0.8) / (1 - 0.05);
    assertEquals((least + most) / 2, found.value(), 0.2 * (most - least));
    double uniform = (most - least) / StrictMath.sqrt(12);
    assertEquals(uniform, found.standardUncertainty(), 0.35 * uniform);
  }

  @Test
  void nothingIsGivenBackWhateverTheFitSays() {
    Block quiet = block(0.05, 0.2, 0.2, NOT_KNOWN);
    double far = RATIO - 0.06;
    Estimate found =
        new ValveBounds(new Block[] {quiet, quiet, quiet, quiet}, source(0.05)).within(far, 0.01);
    assertTrue(found.value() > RATIO - 0.006, found.toString());
  }

  /** Pure oxygen that stands in the vessel has not gone, whatever its settling looks like. */
  @Test
  void gasThatComesToRestAfterAPulseIsNoSolidThatTookItWhole() {
    Block cold = block(0.995, 0.002, 0.002, HUNGRY);
    Estimate found = ratio(0.995, cold, cold);
    Estimate without = ratio(0.995, block(0.995, 0.002, 0.002, NOT_KNOWN));
    assertTrue(found.value() < 1.15, found.toString());
    assertEquals(without.value(), found.value(), 0.01);
  }

  /** A seen share that would need half as much flow again is no evidence either. */
  @Test
  void whatWouldNeedAnImpossibleValveIsNotBelieved() {
    Block odd = block(0.5, 0.3, 0.3, HUNGRY);
    Estimate found = ratio(0.5, odd, odd);
    assertTrue(found.value() < 1.2, found.toString());
  }

  @Test
  void withoutPulsesTheFitIsLeftAlone() {
    Estimate found = new ValveBounds(new Block[0], source(0.05)).within(1.01, 0.03);
    assertEquals(1.01, found.value());
    assertEquals(0.03, found.standardUncertainty());
  }

  // From here on: all of what is possible, summed up point by point.

  /** Half a square of the uncertainties that r lies outside of the bounds after one block. */
  private static double outside(
      double r,
      double x,
      double ux,
      double flow,
      double step,
      double seen,
      double inGasBefore,
      double most,
      double variance) {
    double taken = r * flow - (step - seen);
    double in = x * r * flow;
    double pure = variance + ux * ux * r * r * flow * flow;
    double seenVariance = variance + 0.05 * seen * 0.05 * seen;
    double back = (seen - taken) / Math.sqrt(seenVariance);
    double left = (in - most - taken) / Math.sqrt(pure);
    double over = (taken - in - inGasBefore) / Math.sqrt(pure);
    double below = Math.max(0, Math.max(back, left));
    double above = Math.max(0, over);
    return (below * below + above * above) / 2;
  }

  private static Estimate summedUp(
      double mean, double spread, java.util.function.DoubleUnaryOperator outside) {
    double sum = 0;
    double first = 0;
    double second = 0;
    for (double r = 0.5; r < 1.6; r += 2e-6) {
      double z = (r - mean) / spread;
      double p = Math.exp(-z * z / 2 - outside.applyAsDouble(r));
      sum += p;
      first += p * r;
      second += p * r * r;
    }
    double m = first / sum;
    return new Estimate(m, Math.sqrt(second / sum - m * m));
  }

  private static void assertSame(Estimate wanted, Estimate found) {
    double u = wanted.standardUncertainty();
    assertEquals(wanted.value(), found.value(), 0.02 * u);
    assertEquals(u, found.standardUncertainty(), 0.02 * u);
  }

  /** Noise of one baseline, and of one pulse's flow. */
  private static double gas(Block b) {
    return ValveFit.gasVariance(b, NOISE_MOL2);
  }

  /** 16 pulses of 1 mmol together; 0.3 of it stepped less, 0.1 of that was seen. */
  private static Block plain(Appetite appetite, double seenMol, double stepMol, double other) {
    return new Block(16, FLOW_MOL, stepMol, seenMol, 0, 0, appetite, other, false);
  }

  @Test
  void nothingIsGivenBackAndNoMoreThanAllOxygenCanHaveGone() {
    Block b = plain(NOT_KNOWN, 1e-4, 0.85e-3, 3e-5);
    // No bound on what is left: nobody knows it.
    Estimate wanted =
        summedUp(0.8, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 1e-4, 3e-5, 1e9, gas(b)));
    assertSame(wanted, new ValveBounds(new Block[] {b}, source(0.3)).within(0.8, PRIOR));
    Estimate high =
        summedUp(1.3, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 1e-4, 3e-5, 1e9, gas(b)));
    assertSame(high, new ValveBounds(new Block[] {b}, source(0.3)).within(1.3, PRIOR));
  }

  /** An impure source whose purity is known to 5 %: the upper bound is soft by that. */
  @Test
  void theBoundIsAsSoftAsThePurityOfTheSource() {
    Block b = plain(NOT_KNOWN, 1e-4, 0.85e-3, 0);
    ValveFit.Beforehand unsure =
        new ValveFit.Beforehand(new Estimate(4e-8, 6e-8), NOISE_MOL2, new Estimate(0.3, 0.05));
    Estimate wanted =
        summedUp(1.3, PRIOR, r -> outside(r, 0.3, 0.05, 1e-3, 0.85e-3, 1e-4, 0, 1e9, gas(b)));
    assertSame(wanted, new ValveBounds(new Block[] {b}, unsure).within(1.3, PRIOR));
  }

  /** d = 0.3/16 mmol a pulse; q after and q' before: d q'/(q - q') is left, with the noise. */
  @Test
  void whatTheNextPulseFindsTellsWhatWasLeftOfTheLast() {
    double noise = Math.sqrt(NOISE_MOL2) / 15 * 4;
    for (double before : new double[] {0, 2e-7, 6e-7}) {
      double after = 16e-7;
      Block b = plain(new Appetite(16, before, after, 0), 1e-4, 0.85e-3, 0);
      double share = (before + noise) / (after - noise);
      double left = 0.3e-3 / 16 * share / (1 - share);
      Estimate wanted =
          summedUp(0.9, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 1e-4, 0, left, gas(b)));
      assertSame(wanted, new ValveBounds(new Block[] {b}, source(0.3)).within(0.9, PRIOR));
    }
  }

  @Test
  void aRateThatHardlyFellOrIsLostInItsNoiseTellsNothing() {
    double noise = Math.sqrt(NOISE_MOL2) / 15 * 4;
    Appetite[] mute = {
      new Appetite(16, 12e-7, 16e-7, 0),
      new Appetite(16, 0, 3.9 * noise, 0),
      new Appetite(0, 0, 16e-7, 0)
    };
    for (Appetite appetite : mute) {
      Block b = plain(appetite, 1e-4, 0.85e-3, 0);
      Estimate wanted =
          summedUp(0.9, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 1e-4, 0, 1e9, gas(b)));
      assertSame(wanted, new ValveBounds(new Block[] {b}, source(0.3)).within(0.9, PRIOR));
    }
  }

  /** A tenth of the oxygen seen: 0.03 mmol of 0.3 mmol. */
  @Test
  void aSolidThatWasSeenToTakeTooLittleTellsNothingEither() {
    Appetite hungry = new Appetite(16, 0, 16e-7, 0);
    Block little = plain(hungry, 0.029e-3, 0.85e-3, 0);
    Estimate wanted =
        summedUp(
            0.9, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 0.029e-3, 0, 1e9, gas(little)));
    assertSame(wanted, new ValveBounds(new Block[] {little}, source(0.3)).within(0.9, PRIOR));
    Block enough = plain(hungry, 0.031e-3, 0.85e-3, 0);
    double noise = Math.sqrt(NOISE_MOL2) / 15 * 4;
    double share = noise / (16e-7 - noise);
    double left = 0.3e-3 / 16 * share / (1 - share);
    Estimate sure =
        summedUp(
            0.9, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 0.031e-3, 0, left, gas(enough)));
    assertSame(sure, new ValveBounds(new Block[] {enough}, source(0.3)).within(0.9, PRIOR));
  }

  /** Gas that was pumped off twice took along, at most, what was left each time. */
  @Test
  void whatWasPumpedOffMeanwhileIsNotLeftEither() {
    double noise = Math.sqrt(NOISE_MOL2) / 15 * 4;
    double share = (6e-7 + noise) / (16e-7 - noise);
    double now = 0.3e-3 / 16 * share / (1 - share);
    Block b = plain(new Appetite(16, 6e-7, 16e-7, 2), 1e-4, 0.85e-3, 0);
    Estimate wanted =
        summedUp(0.9, PRIOR, r -> outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 1e-4, 0, 3 * now, gas(b)));
    assertSame(wanted, new ValveBounds(new Block[] {b}, source(0.3)).within(0.9, PRIOR));
  }

  /** Nobody knows what is left: at most all that was there and came. After that, it is known. */
  @Test
  void eachBlocksBoundCountsAllThatWasLetInUntilThen() {
    double noise = Math.sqrt(NOISE_MOL2) / 15 * 4;
    Block first = plain(new Appetite(16, 12e-7, 16e-7, 1), 1e-4, 0.85e-3, 2e-5);
    Block second = plain(new Appetite(16, 2e-7, 16e-7, 0), 1e-4, 0.8e-3, 0);
    double gone = 0.3e-3 + 2e-5;
    double share = (2e-7 + noise) / (16e-7 - noise);
    double now = 0.3e-3 / 16 * share / (1 - share);
    double both = gas(first) + gas(second);
    Estimate wanted =
        summedUp(
            0.9,
            PRIOR,
            r -> {
              // After the first, 0.64 mmol would be left or gone: no bound that holds anything.
              double one = outside(r, 0.3, 1e-5, 1e-3, 0.85e-3, 1e-4, 2e-5, 2 * gone, gas(first));
              double two = outside(r, 0.3, 1e-5, 2e-3, 1.65e-3, 2e-4, 2e-5, gone + now, both);
              return Math.max(one, two);
            });
    assertSame(
        wanted, new ValveBounds(new Block[] {first, second}, source(0.3)).within(0.9, PRIOR));
  }
}
