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
}
