package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Recipe;

class CompositionTest {
  private static final Recipe RECIPE = TestSteps.recipe(TestSteps.ask());
  private static final double CHARGE_MOL = 4e-3 / 0.063546;

  @Test
  void byGasTwoAtomsComeWithEveryMoleculeOfOxygen() {
    Estimate uptake = new Estimate(CHARGE_MOL / 4, 1e-5);
    Estimate now = Composition.CHARGE.now(uptake, RECIPE, 0);
    assertEquals(0.5, now.value(), 1e-12);
    double gas = 1e-5 * 2 / CHARGE_MOL;
    double mass = 1e-6 / 4e-3 * 0.5;
    assertEquals(StrictMath.hypot(gas, mass), now.standardUncertainty(), 1e-12);
  }

  /** The gain of the gauge acts on the uptake since the reference only, noise on all of it. */
  @Test
  void afterAReferenceOnlyTheGainOfWhatCameSinceCounts() {
    Composition reference = new Composition(new Estimate(0.5, 0.001), CHARGE_MOL / 4);
    double gain = 0.01;
    double total = CHARGE_MOL * 3 / 8;
    double random = 2e-6;
    Estimate uptake = new Estimate(total, StrictMath.hypot(gain * total, random));
    Estimate now = reference.now(uptake, RECIPE, gain);
    assertEquals(0.75, now.value(), 1e-12);
    double expected =
        StrictMath.sqrt(
            0.001 * 0.001
                + square(0.25 * gain)
                + square(0.25 * 1e-6 / 4e-3)
                + square(random * 2 / CHARGE_MOL));
    assertEquals(expected, now.standardUncertainty(), 1e-9);
  }

  private static double square(double x) {
    return x * x;
  }

  /** CuO from 4 g of Cu weighs 4 * 79.545 / 63.546 = 5.0071 g (IUPAC abridged weights 2021). */
  @Test
  void byMassOxygenWeighsWhatItWeighs() {
    Estimate oxide = Composition.byMass(4e-3 * 79.545 / 63.546, RECIPE);
    assertEquals(1, oxide.value(), 1e-6);
    double uncertaintyKg = StrictMath.hypot(3e-6, 1e-6);
    assertEquals(uncertaintyKg / (CHARGE_MOL * 15.999e-3), oxide.standardUncertainty(), 1e-9);
    assertEquals(0, Composition.byMass(4e-3, RECIPE).value());
    assertTrue(Composition.byMass(3.9e-3, RECIPE).value() < 0);
  }

  /** Weighted mean of 10.0(3) and 10.5(4): weights 16:9, 10.18(24). Any text on statistics. */
  @Test
  void jointlyTheWeightsAreTheInverseVariances() {
    Composition joined =
        Composition.CHARGE.joined(new Estimate(10.0, 0.3), new Estimate(10.5, 0.4), 0.01);
    assertEquals(10.18, joined.reference().value(), 1e-12);
    assertEquals(0.24, joined.reference().standardUncertainty(), 1e-12);
    assertEquals(0.01, joined.uptakeAtReferenceMol());
  }

  @Test
  void anExactWitnessDoesNotDivideByZero() {
    Composition joined = Composition.CHARGE.joined(Estimate.exact(0.5), new Estimate(0.6, 0.1), 0);
    assertEquals(0.5, joined.reference().value(), 1e-9);
    assertEquals(1e-9, joined.reference().standardUncertainty(), 1e-12);
  }

  @Test
  void afterAWeighingTheGasGoesOnFromTheJointReference() {
    ControlBench bench =
        ControlBench.with(TestSteps.ask(TestSteps.mass("mass")), TestSteps.soak(295, 1e6, 5));
    bench.pressurePa(80_000).start().forSeconds(60);
    // 1 % of the oxygen for CuO by the gas, 2 % by the mass.
    double perPa = (TestRig.HOT_M3 + TestRig.COLD_M3) / 295 / 8.31446261815324;
    double onePercentPa = 0.01 * CHARGE_MOL / 2 / perPa;
    bench.pressurePa(80_000 - onePercentPa).forSeconds(900);
    Estimate byGas = new Report(bench.plan, bench.state).oxygenPerUnit();
    assertEquals(0.01, byGas.value(), 1e-4);
    double massKg = 4e-3 + 0.02 * CHARGE_MOL * 15.999e-3;
    bench.tick(new Request.Answer("Ada", 1, java.util.Map.of("mass", massKg), ""));
    Estimate joint = bench.events(Event.Weighed.class).get(0).oxygenPerUnit();
    Estimate byMass = Composition.byMass(massKg, RECIPE);
    double u = byGas.standardUncertainty();
    double v = byMass.standardUncertainty();
    double expected = (byGas.value() / u / u + byMass.value() / v / v) / (1 / u / u + 1 / v / v);
    assertEquals(expected, joint.value(), 1e-6);
    assertTrue(joint.standardUncertainty() < StrictMath.min(u, v));
    bench.pressurePa(80_000 - 2 * onePercentPa).forSeconds(900);
    Report report = new Report(bench.plan, bench.state);
    assertEquals(joint.value() + 0.01, report.oxygenPerUnit().value(), 1e-4);
    assertEquals(report.oxygenPerUnit().value(), report.conversion().value(), 1e-12);
  }

  @Test
  void theHeatIsThatAboveTheLastMark() {
    HeatWatch watch = HeatWatch.NONE.step(300, 298, 0.25);
    assertEquals(0, watch.excessK());
    watch = watch.step(310, 298, 10);
    assertEquals(5, watch.excessK(), 1e-12, "half of the way in 10 s at a filter of 10 s");
    assertEquals(0, watch.marked().excessK());
    assertEquals(305, watch.marked().sampleK(), 1e-12);
    assertEquals(1, watch.step(305, 302, 1e9).excessK(), 1e-6);
  }
}
