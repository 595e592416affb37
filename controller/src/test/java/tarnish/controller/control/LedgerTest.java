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
}
