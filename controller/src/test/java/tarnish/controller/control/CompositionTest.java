package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Recipe;

class CompositionTest {
  private static final Recipe RECIPE = TestSteps.recipe(TestSteps.ask());
  private static final Plan PLAN = Plan.of(RECIPE, new TestRig().build());
  private static final double CHARGE_MOL = 4e-3 / 0.063546;
  private static final double CU = 0.063546;
  private static final double O = 15.999e-3;
  private static final GasAccount EMPTY = GasAccount.empty(PLAN.gasModel(), PLAN.rig().oxygen());
  private static final Composition CHARGE = Composition.ofCharge(PLAN);

  /** An account that rested while {@code mol} were taken up at a steady rate. */
  private static GasAccount after(GasAccount before, double mol) {
    ControlBench bench = ControlBench.with(TestSteps.ask());
    TickWork work = new TickWork(bench.plan, bench.state);
    GasModel.Heat cold = new GasModel.Heat(295, 295, 295);
    double paPerMol = 1 / PLAN.gasModel().amountMol(1, cold);
    GasAccount account = before;
    for (int i = 0; i <= 4000; i++) {
      account =
          account.step(
              GasAccount.Window.RESTING, view(paPerMol * (0.1 - mol * i / 4000), cold), work);
    }
    return account.step(GasAccount.Window.EXCHANGING, view(0, cold), work);
  }

  private static GasView view(double pressurePa, GasModel.Heat heat) {
    return new GasView(pressurePa, heat, 0, 0, 0, 0, 0, false, false, 0.25);
  }

  @Test
  void byGasTwoAtomsComeWithEveryMoleculeOfOxygen() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 4);
    Estimate now = CHARGE.now(gas);
    assertEquals(0.5, now.value(), 1e-3);
    double byGas = gas.total().standardUncertainty() * 2 / CHARGE_MOL;
    double byMass = 1e-6 / 4e-3 * 0.5;
    assertTrue(byGas > 0.001 && byGas < 0.01, "by gas " + byGas);
    assertEquals(StrictMath.hypot(byGas, byMass), now.standardUncertainty(), 1e-7);
  }

  /** CuO from 4 g of Cu weighs 4 * 79.545 / 63.546 = 5.0071 g (IUPAC abridged weights 2021). */
  @Test
  void theBalanceSaysTheOxideThatItWeighs() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 2);
    Composition.Weighing weighing = CHARGE.weighed(4e-3 * 79.545 / 63.546, gas);
    assertEquals(1, weighing.byMass().value(), 1e-6);
    double balanceKg = StrictMath.hypot(3e-6, 1e-6 * 79.545 / 63.546);
    assertEquals(balanceKg / (CHARGE_MOL * O), weighing.byMass().standardUncertainty(), 1e-7);
  }

  /** The weighted mean, near enough: the charge's own mass is in both witnesses. */
  @Test
  void jointlyTheWeightsAreNearlyTheInverseVariances() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 4);
    Estimate byGas = CHARGE.now(gas);
    double massKg = CHARGE_MOL * (CU + O * (byGas.value() + 0.004));
    Composition.Weighing weighing = CHARGE.weighed(massKg, gas);
    double u = byGas.standardUncertainty();
    double v = weighing.byMass().standardUncertainty();
    double mean =
        (byGas.value() / u / u + weighing.byMass().value() / v / v) / (1 / u / u + 1 / v / v);
    Estimate joint = weighing.after().now(gas);
    assertEquals(mean, joint.value(), 2e-5);
    assertTrue(joint.standardUncertainty() < StrictMath.min(u, v));
  }

  /** A balance that finds 1 % more than the gas corrects the gas for what comes after, too. */
  @Test
  void aWeighingCorrectsTheGasForWhatComesAfter() {
    GasAccount then = after(EMPTY, CHARGE_MOL / 4);
    double trueFirst = 0.5 * 1.01;
    Composition weighed = CHARGE.weighed(CHARGE_MOL * (CU + O * trueFirst), then).after();
    GasAccount gas = after(then, CHARGE_MOL / 8);
    double trueSecond = trueFirst + 0.25 * 1.01;
    double uncorrected = weighed.now(then).value() + 0.25;
    double corrected = weighed.now(gas).value();
    assertTrue(
        StrictMath.abs(corrected - trueSecond) < StrictMath.abs(uncorrected - trueSecond),
        corrected + " and " + uncorrected + " against " + trueSecond);
    assertTrue(
        weighed.uptake(gas).standardUncertainty() < CHARGE.uptake(gas).standardUncertainty());
  }

  @Test
  void aLossLeavesTheCompositionAndRescalesTheAmount() {
    GasAccount then = after(EMPTY, CHARGE_MOL / 4);
    Composition half = CHARGE.rescaledTo(0.4 * CHARGE_MOL * (CU + O * 0.5), then);
    assertEquals(CHARGE.now(then).value(), half.now(then).value(), 1e-4);
    assertEquals(0.4 * CHARGE_MOL, half.amountMol(), 1e-3 * CHARGE_MOL);
    // What is left takes up the rest: the same gas now means more oxygen per unit.
    GasAccount gas = after(then, 0.4 * CHARGE_MOL / 4);
    assertEquals(1, half.now(gas).value(), 3e-3);
    Composition weighed = half.weighed(0.4 * CHARGE_MOL * (CU + O), gas).after();
    assertEquals(1, weighed.now(gas).value(), 2e-3);
  }

  @Test
  void aSampleAndAnAdditionKeepTheOxygenThatIsThere() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 4);
    double massKg = CHARGE_MOL * (CU + O * 0.5);
    Composition less = CHARGE.reducedBy(0.1 * massKg, 0, gas);
    assertEquals(CHARGE.now(gas).value(), less.now(gas).value(), 1e-9);
    assertEquals(0.9 * CHARGE_MOL, less.amountMol(), 1e-4 * CHARGE_MOL);
    Composition more = CHARGE.increasedBy(4e-3, 0, gas);
    assertEquals(2 * CHARGE_MOL, more.amountMol(), 1e-12);
    assertEquals(CHARGE.now(gas).value() / 2, more.now(gas).value(), 1e-9);
  }

  @Test
  void anotherVesselHasErrorsOfItsOwn() {
    GasAccount then = after(EMPTY, CHARGE_MOL / 4);
    Composition weighed = CHARGE.weighed(CHARGE_MOL * (CU + O * 0.505), then).after();
    GasAccount gas = after(then, CHARGE_MOL / 8);
    // What the weighing told about the old volumes says nothing about the new ones.
    assertEquals(weighed.now(then).value(), weighed.inVessel(then).now(then).value(), 1e-12);
    double same = weighed.now(gas).value();
    double other = weighed.inVessel(then).now(gas).value();
    assertTrue(StrictMath.abs(other - same) > 1e-5, other + " and " + same);
  }

  @Test
  void aWeighingFarFromTheGasIsToldWithItsLikelyCause() {
    ControlBench bench =
        ControlBench.with(TestSteps.ask(TestSteps.mass("mass")), TestSteps.soak(295, 1e6, 5));
    bench.pressurePa(80_000).start().forSeconds(60);
    bench.tick(new Request.Answer("Ada", 1, java.util.Map.of("mass", 3.5e-3), ""));
    Event.WitnessesDisagree event = bench.events(Event.WitnessesDisagree.class).get(0);
    assertTrue(event.deviations() < -3);
    assertTrue(event.likely().contains("lost"), event.sentence());
  }

  @Test
  void theLedgerRefusesWhatCannotBe() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 1e6, 5));
    bench.pressurePa(80_000);
    bench.tick(new Request.Loss("Ada", 3e-3, 0, ""));
    bench.start().forSeconds(5);
    bench.tick(new Request.Loss("Ada", 9e-3, 0, ""));
    bench.tick(new Request.Loss("Ada", 3e-3, 1e-3, "both"));
    bench.tick(new Request.SampleTaken("Ada", 5e-3, ""));
    bench.tick(new Request.Addition("Ada", Double.NaN, ""));
    bench.tick(new Request.SourceChange("Ada", 1.2, 0, 1e5, ""));
    bench.tick(new Request.VesselChange("Ada", 0, 0, 1e-4, 0, ""));
    assertEquals(7, bench.events(Event.RequestRefused.class).size());
    assertEquals(0, bench.events(Event.LedgerEntered.class).size());
    bench.tick(new Request.Loss("Ada", 3e-3, 0, "spilled"));
    bench.tick(new Request.Transfer("Ada", 2.9e-3, ""));
    bench.tick(new Request.SourceChange("Ada", 0.93, 0.01, 1.4e5, "concentrator"));
    bench.tick(new Request.VesselChange("Ada", 2e-4, 1e-6, 1e-4, 1e-6, "tube B"));
    assertEquals(
        4,
        bench.events(Event.LedgerEntered.class).size(),
        () -> bench.events(Event.RequestRefused.class).toString());
    String first = bench.events(Event.LedgerEntered.class).get(0).sentence();
    assertTrue(
        first.matches("Ledger, Ada \\(.+ ± .+ O per formula unit\\): solid lost, .+ spilled"),
        first);
    assertEquals(0.93, bench.state.gas().source().oxygenFraction());
    assertEquals(2e-4, bench.state.gas().model().volume().hotM3());
  }

  @Test
  void theMassIsThatOfTheMetalAndItsOxygen() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 4);
    double o = CHARGE.now(gas).value();
    assertEquals(CHARGE_MOL * (CU + O * o), CHARGE.massKg(gas), 1e-12);
  }

  /** 10 mg too much: the charge is known to 1 mg, the balance to 3, so it gets a tenth of it. */
  @Test
  void beforeAnyUptakeAWeighingCorrectsTheCharge() {
    Composition.Weighing weighing = CHARGE.weighed(4.01e-3, EMPTY);
    assertEquals(4.001e-3 / CU, weighing.after().amountMol(), 1e-8);
    assertEquals(0, weighing.after().now(EMPTY).value(), 1e-12);
    assertEquals(10 / Math.sqrt(10), weighing.deviations(), 1e-6);
    // A correction known to 4 mg makes 5 mg of the balance's 3.
    assertEquals(10 / Math.sqrt(26), CHARGE.weighed(4.01e-3, 4e-6, EMPTY).deviations(), 1e-6);
  }

  /** A mass that is 10 % too great is off by the amount's own error and the balance's. */
  private static double relativeOfAmount(Composition composition, GasAccount gas) {
    double massKg = composition.massKg(gas);
    double u = 0.1 * massKg / composition.weighed(1.1 * massKg, gas).deviations();
    return Math.sqrt(u * u - 9e-12) / massKg;
  }

  @Test
  void afterEveryChangeTheAmountIsAsSureAsWhatWasWeighed() {
    assertEquals(1e-6 / 4e-3, relativeOfAmount(CHARGE, EMPTY), 1e-8);
    // What was left counts alone, whatever was there before.
    assertEquals(3e-6 / 2e-3, relativeOfAmount(CHARGE.rescaledTo(2e-3, EMPTY), EMPTY), 1e-5);
    assertEquals(
        Math.hypot(1e-6 / 4e-3, 5e-6 / 3e-3),
        relativeOfAmount(CHARGE.reducedBy(1e-3, 5e-6, EMPTY), EMPTY),
        1e-7);
    assertEquals(
        Math.hypot(1e-6, 5e-6) / 6e-3,
        relativeOfAmount(CHARGE.increasedBy(2e-3, 5e-6, EMPTY), EMPTY),
        1e-7);
  }

  @Test
  void anAdditionSpreadsOxygenAndItsErrorOverAll() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 4);
    Estimate before = CHARGE.now(gas);
    Estimate after = CHARGE.increasedBy(4e-3, 0, gas).now(gas);
    assertEquals(before.value() / 2, after.value(), 1e-9);
    assertEquals(before.standardUncertainty() / 2, after.standardUncertainty(), 1e-6);
  }

  /** What the weighing tells of the gas is what it tells of the solid. */
  @Test
  void theUptakeByAllWitnessesIsThatOfTheSolid() {
    GasAccount gas = after(EMPTY, CHARGE_MOL / 4);
    Composition weighed = CHARGE.weighed(CHARGE_MOL * (CU + O * 0.507), gas).after();
    Estimate solid = weighed.now(gas);
    Estimate uptake = weighed.uptake(gas);
    assertTrue(solid.value() > 0.502, "it was corrected");
    assertEquals(solid.value() * CHARGE_MOL / 2, uptake.value(), 2e-6);
    assertEquals(
        solid.standardUncertainty() * CHARGE_MOL / 2,
        uptake.standardUncertainty(),
        0.05 * uptake.standardUncertainty());
    Estimate alone = CHARGE.uptake(gas);
    assertEquals(gas.total().mol(), alone.value(), 1e-15);
    assertEquals(gas.total().standardUncertainty(), alone.standardUncertainty(), 1e-12);
  }

  /** Noise of one gauge at both ends of every interval is random: it adds to the errors. */
  @Test
  void theNoiseOfTheGaugeIsPartOfTheUncertainty() {
    GasByHand noisy = new GasByHand(PLAN, 5e-3);
    noisy.noisePa = 5000;
    noisy.rest(60, 0).rest(300, 1e-6);
    GasAccount gas = noisy.account;
    double byGas = gas.total().standardUncertainty() * 2 / CHARGE_MOL;
    double byMass = 1e-6 / 4e-3 * CHARGE.now(gas).value();
    assertEquals(Math.hypot(byGas, byMass), CHARGE.now(gas).standardUncertainty(), 1e-9);
    double random = gas.total().variance();
    assertTrue(random > 0.5 * Math.pow(gas.total().standardUncertainty(), 2), "it is most of it");
    assertEquals(
        gas.total().standardUncertainty(), CHARGE.uptake(gas).standardUncertainty(), 1e-12);
  }

  @Test
  void theVolumesOfAnotherVesselAreUnsureAgain() {
    GasAccount then = after(EMPTY, CHARGE_MOL / 4);
    Composition weighed = CHARGE.weighed(CHARGE_MOL * (CU + O * 0.5), then).after();
    GasAccount gas = after(then, CHARGE_MOL / 4);
    double same = weighed.now(gas).standardUncertainty();
    double other = weighed.inVessel(then).now(gas).standardUncertainty();
    assertTrue(other > 1.01 * same, other + " against " + same);
    Composition fresh = CHARGE.inVessel(EMPTY);
    assertEquals(
        CHARGE.now(then).standardUncertainty(), fresh.now(then).standardUncertainty(), 1e-12);
  }

  @Test
  void theLastEightMassesAreKept() {
    Composition steady = CHARGE;
    for (int i = 0; i < 12; i++) {
      steady = steady.weighed(4e-3, EMPTY).after();
    }
    assertTrue(steady.massIsSteady(8));
    assertFalse(steady.massIsSteady(9));
  }
}
