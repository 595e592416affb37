package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tarnish.shared.reading.Channel;

/** Lines of the ledger on a batch that has 4 g of copper in its vessel. */
class LedgerTest {
  private static final double CHARGE_MOL = 4e-3 / 0.063546;
  private final ControlBench bench = ControlBench.with(TestSteps.soak(295, 1e6, 5)).start();

  private TickWork enter(Request request) {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    Ledger.enter(request, work);
    return work;
  }

  private static boolean refused(TickWork work) {
    return work.events().stream().anyMatch(e -> e instanceof Event.RequestRefused);
  }

  @Test
  void aLossOfMoreThanHalfScalesTheAmountAndLeavesTheComposition() {
    TickWork work = enter(new Request.Loss("Ada", 1.5e-3, 0, "spilled"));
    assertFalse(refused(work));
    assertEquals(CHARGE_MOL * 1.5 / 4, work.composition.amountMol(), 1e-3 * CHARGE_MOL);
    assertEquals(0, work.composition.now(work.gas).value(), 1e-9);
  }

  @Test
  void aLossOfWhichOnlyTheLostPartIsKnownTakesItOff() {
    TickWork work = enter(new Request.Loss("Ada", 0, 1e-3, "swept up"));
    assertEquals(CHARGE_MOL * 3 / 4, work.composition.amountMol(), 1e-9);
    assertTrue(work.composition.now(work.gas).standardUncertainty() >= 0);
  }

  @Test
  void additionAndSampleCountFormulaUnits() {
    TickWork added = enter(new Request.Addition("Ada", 2e-3, ""));
    assertEquals(CHARGE_MOL * 1.5, added.composition.amountMol(), 1e-9);
    TickWork taken = enter(new Request.SampleTaken("Ada", 0.4e-3, ""));
    assertEquals(CHARGE_MOL * 0.9, taken.composition.amountMol(), 1e-9);
  }

  static List<Request> slips() {
    return List.of(
        new Request.Loss("Ada", 5e-3, 0, "more is left than was there"),
        new Request.Loss("Ada", 1e-3, 1e-3, "told twice over"),
        new Request.Loss("Ada", 0, 0, "told nothing"),
        new Request.Addition("Ada", 0, ""),
        new Request.Addition("Ada", 1, "a kilogram"),
        new Request.SampleTaken("Ada", 4.1e-3, "all of it and more"),
        new Request.Transfer("Ada", 6e-3, ""),
        new Request.SourceChange("Ada", 1.2, 0.01, 150_000, ""),
        new Request.SourceChange("Ada", 0.9, 0.6, 150_000, ""),
        new Request.VesselChange("Ada", 0, 0, 1e-4, 0, ""),
        new Request.VesselChange("Ada", 2e-4, 3e-4, 1e-4, 0, ""));
  }

  @ParameterizedTest
  @MethodSource("slips")
  void aSlipOfTheHandIsRefusedAndChangesNothing(Request slip) {
    TickWork work = enter(slip);
    assertTrue(refused(work), slip.toString());
    assertEquals(CHARGE_MOL, work.composition.amountMol(), 1e-12);
  }

  @Test
  void aVesselIsChangedCold() {
    bench.set(Channel.SAMPLE_TEMPERATURE, 400);
    assertTrue(refused(enter(new Request.VesselChange("Ada", 3e-4, 1e-6, 1e-4, 1e-6, ""))));
    bench.set(Channel.SAMPLE_TEMPERATURE, 300);
    TickWork work = enter(new Request.VesselChange("Ada", 3e-4, 1e-6, 1e-4, 1e-6, ""));
    assertFalse(refused(work));
    assertEquals(3e-4, work.gas.model().volume().hotM3());
  }

  @Test
  void anotherSourceIsReckonedWithFromNowOn() {
    TickWork work = enter(new Request.SourceChange("Ada", 0.93, 0.01, 140_000, "concentrator"));
    assertEquals(0.93, work.gas.source().oxygenFraction());
    assertEquals(1, work.gas.valveRatio(), "what the valve passes has to be learnt again");
  }

  @Test
  void aMassThatBelongsToSomethingElseIsKeptAndNotJoined() {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    Composition before = work.composition;
    Ledger.weigh(5.5e-3, work);
    assertEquals(before, work.composition);
    assertTrue(
        work.events().stream().anyMatch(e -> e instanceof Event.WitnessesDisagree),
        work.events().toString());
  }

  /** Air buoys the lighter oxide: the same solid shows less, 5.6 parts in 100 000 for CuO. */
  @Test
  void theBuoyancyOfAirIsTakenOutOfAWeighing() {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    assertEquals(4e-3, WeighedInAir.corrected(4e-3, work).value(), 1e-12, "the charge itself");
    work.composition = work.composition.rescaledTo(4e-3, work.gas);
    assertTrue(WeighedInAir.corrected(4e-3, work).standardUncertainty() < 1e-7);
  }

  @Test
  void massesAreSteadyOnlyWithinTheBalancesUncertaintyAndAfterEnoughOfThem() {
    Composition c = bench.state.composition();
    GasAccount gas = bench.state.gas();
    Composition two = c.weighed(4.0e-3, gas).after().weighed(4.003e-3, gas).after();
    assertTrue(two.massIsSteady(2));
    assertFalse(two.massIsSteady(3), "only two");
    assertFalse(two.weighed(4.02e-3, gas).after().massIsSteady(2));
    assertFalse(two.reducedBy(1e-3, 1e-6, gas).massIsSteady(1), "a sample starts anew");
  }

  private TickWork work() {
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    return work;
  }

  private String entered(Request request) {
    TickWork work = enter(request);
    assertEquals(1, work.events().size(), work.events().toString());
    Event.LedgerEntered line = (Event.LedgerEntered) work.events().get(0);
    assertEquals("Ada", line.by());
    assertEquals(work.composition.now(work.gas), line.oxygenPerUnit());
    return line.what();
  }

  @Test
  void everyLineSaysWhatHappenedWithItsNumbersAndTheRemark() {
    assertEquals(
        "solid lost, " + grams(1.5e-3) + " left. spilled",
        entered(new Request.Loss("Ada", 1.5e-3, 0, "spilled")));
    assertEquals(
        "solid lost, about " + grams(1e-3) + ". swept up",
        entered(new Request.Loss("Ada", 0, 1e-3, "swept up")));
    assertEquals(
        "solid moved, " + grams(3.9e-3) + " arrived. some stuck",
        entered(new Request.Transfer("Ada", 3.9e-3, "some stuck")));
    assertEquals(
        "fresh charge added, " + grams(2e-3) + ". more",
        entered(new Request.Addition("Ada", 2e-3, "more")));
    assertEquals(
        "sample taken, " + grams(0.4e-3) + ". X-rays",
        entered(new Request.SampleTaken("Ada", 0.4e-3, "X-rays")));
    assertEquals(
        "another vessel, gas space 300.0 mL hot and 100.0 mL cold. cracked",
        entered(new Request.VesselChange("Ada", 3e-4, 1e-6, 1e-4, 1e-6, "cracked")));
    String source = entered(new Request.SourceChange("Ada", 0.93, 0.01, 140_000, "concentrator"));
    assertTrue(source.startsWith("another oxygen source, 93"), source);
    assertTrue(source.endsWith(" oxygen at " + Words.pressure(140_000) + ". concentrator"), source);
  }

  private static String grams(double massKg) {
    return Words.mass(new tarnish.shared.estimate.Estimate(massKg, 3e-6));
  }

  /** 5 % of what was swept up and 3 mg of the balance, of 3 g that are left. */
  @Test
  void whatWasSweptUpIsKnownToATwentiethAndTheBalance() {
    TickWork work = enter(new Request.Loss("Ada", 0, 1e-3, "swept up"));
    TickWork taken = enter(new Request.SampleTaken("Ada", 1e-3, "weighed out"));
    assertEquals((5e-5 + 3e-6) / 3e-3, relativeOfAmount(work), 1e-4);
    assertEquals(1e-3, relativeOfAmount(taken), 2e-4);
  }

  /** A mass far better known than the amount is wrong by the amount's own error. */
  private static double relativeOfAmount(TickWork work) {
    double massKg = work.composition.massKg(work.gas);
    double deviations = work.composition.weighed(1.1 * massKg, 0, work.gas).deviations();
    double u = 0.1 * massKg / deviations;
    return StrictMath.sqrt(u * u - 9e-12) / massKg;
  }

  @Test
  void aTransferOfNearlyAllLeavesTheAmountThatArrived() {
    TickWork work = enter(new Request.Transfer("Ada", 3.9e-3, "some stuck"));
    assertFalse(refused(work));
    assertEquals(CHARGE_MOL * 3.9 / 4, work.composition.amountMol(), 1e-6);
  }

  static List<Request> extremes() {
    return List.of(
        new Request.SourceChange("Ada", 1, 0, 1_999_999, ""),
        new Request.SourceChange("Ada", 1e-3, 0.49, 1, ""),
        new Request.VesselChange("Ada", 0.0999, 0, 0, 0, ""),
        new Request.VesselChange("Ada", 1e-4, 1e-4, 0.0999, 0.1, ""),
        new Request.Addition("Ada", 39.9e-3, ""),
        new Request.Loss("Ada", 0, 3.995e-3, ""),
        new Request.Transfer("Ada", 4.39e-3, "the balance errs by a little"));
  }

  @ParameterizedTest
  @MethodSource("extremes")
  void whatCanJustBeIsTaken(Request extreme) {
    assertFalse(refused(enter(extreme)), extreme.toString());
  }

  static List<Request> tooMuch() {
    return List.of(
        new Request.SourceChange("Ada", 0, 0, 150_000, ""),
        new Request.SourceChange("Ada", 1.001, 0, 150_000, ""),
        new Request.SourceChange("Ada", 0.9, -0.001, 150_000, ""),
        new Request.SourceChange("Ada", 0.9, 0.5, 150_000, ""),
        new Request.SourceChange("Ada", 0.9, 0.01, 0, ""),
        new Request.SourceChange("Ada", 0.9, 0.01, 2e6, ""),
        new Request.VesselChange("Ada", 0.1, 0, 1e-4, 0, ""),
        new Request.VesselChange("Ada", 1e-4, 0, 0.1, 0, ""),
        new Request.VesselChange("Ada", 1e-4, 0, -1e-9, 0, ""),
        new Request.VesselChange("Ada", 1e-4, -1e-9, 1e-4, 0, ""),
        new Request.VesselChange("Ada", 1e-4, 0, 1e-4, -1e-9, ""),
        new Request.VesselChange("Ada", 1e-4, 0, 1e-4, 0.101, ""),
        new Request.Addition("Ada", 40.1e-3, ""),
        new Request.Addition("Ada", -1e-3, ""),
        new Request.Loss("Ada", 0, 3.997e-3, ""),
        new Request.Transfer("Ada", 4.41e-3, ""),
        new Request.Transfer("Ada", 1e-6, ""));
  }

  @ParameterizedTest
  @MethodSource("tooMuch")
  void whatCannotBeIsRefused(Request slip) {
    assertTrue(refused(enter(slip)), slip.toString());
  }

  @Test
  void withoutABatchNothingIsEntered() {
    for (BatchState phase : List.of(BatchState.IDLE, BatchState.COMPLETE)) {
      TickWork work = work();
      work.phase = phase;
      Ledger.enter(new Request.Addition("Ada", 1e-3, ""), work);
      assertEquals(
          List.of(new Event.RequestRefused("Ada", "ledger", "No batch is running.")),
          work.events());
    }
  }

  // Weighings of a charge that took up 2 mmol of oxygen by the gas: 64 mg, known to some percent.
  private static final double TAKEN_MOL = 2e-3;

  private TickWork taken(double mol) {
    GasByHand gas = new GasByHand(bench.plan, 8e-3).rest(60, 0);
    gas.rest(400, mol / 400).rest(60, 0);
    TickWork work = gas.work;
    work.readings = bench.readings;
    return work;
  }

  /** A mass on the balance that is so many standard uncertainties away from the gas. */
  private static double apart(double deviations, TickWork work) {
    double kg = work.composition.massKg(work.gas);
    double perKg =
        (WeighedInAir.corrected(kg + 1e-3, work).value() - WeighedInAir.corrected(kg, work).value())
            / 1e-3;
    double inAirKg = kg - (WeighedInAir.corrected(kg, work).value() - kg) / perKg;
    double one = deviationsOf(inAirKg + 1e-3, work);
    return inAirKg + deviations * 1e-3 / one;
  }

  private static double deviationsOf(double massKg, TickWork work) {
    tarnish.shared.estimate.Estimate inAir = WeighedInAir.corrected(massKg, work);
    return work.composition
        .weighed(inAir.value(), inAir.standardUncertainty(), work.gas)
        .deviations();
  }

  private static List<Event.WitnessesDisagree> disagreements(TickWork work) {
    return work.events().stream()
        .filter(Event.WitnessesDisagree.class::isInstance)
        .map(Event.WitnessesDisagree.class::cast)
        .toList();
  }

  @Test
  void aMassWithinThreeUncertaintiesIsJoinedInSilence() {
    for (double deviations : new double[] {-2.9, 2.9}) {
      TickWork work = taken(TAKEN_MOL);
      double before = work.composition.now(work.gas).value();
      double massKg = apart(deviations, work);
      Ledger.weigh(massKg, work);
      assertEquals(List.of(), disagreements(work));
      assertTrue((work.composition.now(work.gas).value() - before) * deviations > 0);
      Event.Weighed told = (Event.Weighed) work.events().get(0);
      assertEquals(massKg, told.massKg().value());
      assertEquals(3e-6, told.massKg().standardUncertainty());
      assertEquals(work.composition.now(work.gas), told.oxygenPerUnit());
    }
  }

  @Test
  void fromThreeToSixUncertaintiesItIsJoinedAndTold() {
    TickWork lighter = taken(TAKEN_MOL);
    Composition before = lighter.composition;
    Ledger.weigh(apart(-3.1, lighter), lighter);
    assertFalse(before == lighter.composition, "joined");
    Event.WitnessesDisagree less = disagreements(lighter).get(0);
    assertEquals(-3.1, less.deviations(), 0.01);
    assertTrue(less.what().startsWith("Gas says 0.06"), less.what());
    assertTrue(less.what().endsWith("."), less.what());
    assertTrue(less.likely().startsWith("a loss not entered"), less.likely());
    TickWork heavier = taken(TAKEN_MOL);
    Ledger.weigh(apart(5.9, heavier), heavier);
    Event.WitnessesDisagree more = disagreements(heavier).get(0);
    assertEquals(5.9, more.deviations(), 0.01);
    assertTrue(more.likely().startsWith("air leaked in"), more.likely());
  }

  @Test
  void beyondSixItIsKeptAndNotJoined() {
    TickWork work = taken(TAKEN_MOL);
    Composition before = work.composition;
    Ledger.weigh(apart(6.1, work), work);
    assertTrue(before == work.composition);
    assertTrue(
        disagreements(work).get(0).what().endsWith("the weighing is kept but not joined."),
        disagreements(work).get(0).what());
  }

  /** Less than the metal alone: 2 % of CuO's oxygen are 20 mg; more than CuO: 5 % are 50 mg. */
  @Test
  void aMassThatNoOxideHasIsOfSomethingElse() {
    assertTrue(likely(4e-3 - 25e-6).startsWith("solid was lost"), likely(4e-3 - 25e-6));
    assertTrue(likely(4e-3 - 15e-6).startsWith("a loss not entered"), likely(4e-3 - 15e-6));
    double fullKg = 4e-3 * (0.063546 + 0.015999) / 0.063546;
    assertTrue(likely(fullKg + 40e-6).startsWith("air leaked in"), likely(fullKg + 40e-6));
    assertTrue(likely(fullKg + 70e-6).startsWith("something else was weighed"));
  }

  private String likely(double massKg) {
    TickWork work = taken(TAKEN_MOL);
    Ledger.weigh(massKg, work);
    return disagreements(work).get(0).likely();
  }

  /** A sample that stood where the oven holds it from the first tick to the last: no heat. */
  private TickWork withoutHeat(GasByHand gas) {
    HeatBalance balance = HeatBalance.NONE;
    for (int i = 0; i < 4000; i++) {
      balance = balance.step(295, 295, 295, 1, i < 3000, bench.plan);
    }
    assertTrue(balance.isLearnt());
    TickWork work = gas.work;
    work.readings = bench.readings;
    work.heat = new HeatWatch(295, 295, 295, 295, balance);
    return work;
  }

  @Test
  void gasThatWentOrCameWithoutHeatIsTold() {
    for (double sign : new double[] {1, -1}) {
      GasByHand gas = new GasByHand(bench.plan, 6e-3).rest(60, 0).pulse(1e-4, 2, 1);
      gas.rest(60, 0).rest(400, sign * 8e-6).rest(60, 0);
      TickWork work = withoutHeat(gas);
      Ledger.weigh(apart(0, work), work);
      Event.WitnessesDisagree told = disagreements(work).get(0);
      assertTrue(-sign * told.deviations() > 3, told.toString());
      String likely = sign > 0 ? "gas that left by a leak" : "air that leaked in";
      assertTrue(told.likely().startsWith(likely), told.likely());
      Report report = new Report(work.plan, work.state());
      double u =
          StrictMath.hypot(
              report.uptakeMol().standardUncertainty(),
              report.uptakeByHeatMol().standardUncertainty());
      assertEquals(
          (report.uptakeByHeatMol().value() - report.uptakeMol().value()) / u,
          told.deviations(),
          1e-9);
    }
  }

  @Test
  void aHeatThatAgreesOrKnowsNothingIsSilent() {
    GasByHand little = new GasByHand(bench.plan, 6e-3).rest(60, 0).pulse(1e-4, 2, 1).rest(120, 0);
    TickWork agrees = withoutHeat(little);
    Ledger.weigh(apart(0, agrees), agrees);
    assertEquals(List.of(), disagreements(agrees));
    TickWork unpulsed = taken(3.2e-3);
    Ledger.weigh(apart(0, unpulsed), unpulsed);
    assertEquals(List.of(), disagreements(unpulsed), "no oxygen was let in: heat is no witness");
  }

  /** Cu2O holds half as much oxygen as CuO: 2 % of it are 10 mg, 5 % are 25 mg. */
  @Test
  void whatNoOxideHasIsToldByTheRecipesTarget() {
    Plan plan =
        Plan.of(
            TestSteps.recipeTo(
                new tarnish.shared.recipe.OxideMember("Cu2O", 0.5), TestSteps.soak(295, 1e6, 5)),
            new TestRig().build());
    assertTrue(likely(plan, 4e-3 - 12e-6).startsWith("solid was lost"));
    assertTrue(likely(plan, 4e-3 - 8e-6).startsWith("a loss not entered"));
    double fullKg = 4e-3 * (0.063546 + 0.015999 / 2) / 0.063546;
    assertTrue(likely(plan, fullKg + 20e-6).startsWith("air leaked in"));
    assertTrue(likely(plan, fullKg + 30e-6).startsWith("something else was weighed"));
  }

  private String likely(Plan plan, double massKg) {
    GasByHand gas = new GasByHand(plan, 8e-3).rest(60, 0);
    gas.rest(400, TAKEN_MOL / 400).rest(60, 0);
    gas.work.readings = bench.readings;
    Ledger.weigh(massKg, gas.work);
    return disagreements(gas.work).get(0).likely();
  }
}
