package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Recipe;

class CompositionTest {
  private static final Recipe RECIPE = TestSteps.recipe(TestSteps.ask());
  private static final double CHARGE_MOL = 4e-3 / 0.063546;

  /** An account that rested while {@code mol} were taken up at a steady rate. */
  private static GasAccount after(GasAccount before, double mol) {
    ControlBench bench = ControlBench.with(TestSteps.ask());
    TickWork work = new TickWork(bench.plan, bench.state);
    GasAccount account = before;
    for (int i = 0; i <= 4000; i++) {
      double gasMol = 0.1 - mol * i / 4000;
      account =
          account.step(
              GasAccount.Window.RESTING, new GasAccount.View(gasMol, 5e4, 0, 0, 0.25), work);
    }
    return account.step(
        GasAccount.Window.EXCHANGING, new GasAccount.View(0, 5e4, 0, 0, 0.25), work);
  }

  @Test
  void byGasTwoAtomsComeWithEveryMoleculeOfOxygen() {
    GasAccount gas = after(GasAccount.EMPTY, CHARGE_MOL / 4);
    Estimate now = Composition.CHARGE.now(gas, RECIPE, 0.01);
    assertEquals(0.5, now.value(), 1e-3);
    double byGas = gas.uptakeSince(GasAccount.EMPTY, 0.01).standardUncertainty() * 2 / CHARGE_MOL;
    double byMass = 1e-6 / 4e-3 * 0.5;
    assertTrue(byGas > 0.005);
    assertEquals(StrictMath.hypot(byGas, byMass), now.standardUncertainty(), 1e-7);
  }

  /** The gain of the gauge acts on the uptake since the reference only. */
  @Test
  void afterAReferenceOnlyTheGainOfWhatCameSinceCounts() {
    GasAccount then = after(GasAccount.EMPTY, CHARGE_MOL / 4);
    Composition reference = new Composition(new Estimate(0.4, 0.001), then);
    GasAccount gas = after(then, CHARGE_MOL / 8);
    Estimate now = reference.now(gas, RECIPE, 0.01);
    assertEquals(0.65, now.value(), 1e-3);
    double since = gas.uptakeSince(then, 0.01).standardUncertainty() * 2 / CHARGE_MOL;
    assertTrue(since > 0.0025 && since < 0.004, "since " + since);
    double expected = StrictMath.sqrt(square(0.001) + square(since) + square(0.25 * 1e-6 / 4e-3));
    assertEquals(expected, now.standardUncertainty(), 1e-7);
    assertEquals(0.001, reference.now(then, RECIPE, 0.01).standardUncertainty(), 1e-12);
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
        Composition.CHARGE.joined(
            new Estimate(10.0, 0.3), new Estimate(10.5, 0.4), GasAccount.EMPTY);
    assertEquals(10.18, joined.reference().value(), 1e-12);
    assertEquals(0.24, joined.reference().standardUncertainty(), 1e-12);
    assertSame(GasAccount.EMPTY, joined.gasThen());
  }

  @Test
  void anExactWitnessDoesNotDivideByZero() {
    Composition joined =
        Composition.CHARGE.joined(Estimate.exact(0.5), new Estimate(0.6, 0.1), GasAccount.EMPTY);
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

  /** Filter 10 s: half of the way in a step of 10 s. */
  @Test
  void theHeatIsWhatTheSampleRoseAboveItselfAndAboveTheOven() {
    HeatWatch watch = HeatWatch.NONE.step(300, 298, 0.25);
    assertEquals(0, watch.excessK());
    HeatWatch heated = watch.step(310, 298, 10);
    assertEquals(5, heated.excessK(), 1e-12);
    assertEquals(0, heated.marked().excessK());
    assertEquals(305, heated.marked().sampleK(), 1e-12);

    HeatWatch warmed = watch.step(310, 306, 10);
    assertEquals(1, warmed.excessK(), 1e-12, "a warming oven is no reaction");
    HeatWatch cooled = watch.step(300, 290, 10);
    assertEquals(0, cooled.excessK(), 1e-12, "an oven whose lead dies away is none either");
    HeatWatch both = watch.step(304, 290, 10);
    assertEquals(2, both.excessK(), 1e-12);
  }
}
