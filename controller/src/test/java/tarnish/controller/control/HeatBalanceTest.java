package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.ReactionHeat;
import tarnish.shared.chemistry.SolidHeatCapacity;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;

/**
 * The balance of a rig without a model: tau_v tau_s = 4e4 s², tau_v + tau_s = 450 s and 0.96 of the
 * oven's warmth arrive, until it is learnt otherwise. Behind its filters (10, 120 and 120 s) all is
 * 250 s late.
 */
class HeatBalanceTest {
  private static final double LATE_S = 250;
  private static final double EQUATION_K2 = 0.12;
  private static final double FLOOR_K = 0.006;

  private final Plan plan = Plan.of(TestSteps.recipe(TestSteps.ask()), new TestRig().build());

  private static final DoubleUnaryOperator ROOM = t -> 295;

  private HeatBalance after(
      double seconds,
      DoubleUnaryOperator sampleK,
      DoubleUnaryOperator ovenK,
      DoubleUnaryOperator roomK,
      boolean oxygenFree) {
    return on(HeatBalance.NONE, 0, seconds, sampleK, ovenK, roomK, oxygenFree);
  }

  private HeatBalance on(
      HeatBalance from,
      double fromS,
      double untilS,
      DoubleUnaryOperator sampleK,
      DoubleUnaryOperator ovenK,
      DoubleUnaryOperator roomK,
      boolean oxygenFree) {
    HeatBalance balance = from;
    for (double t = fromS; t <= untilS; t += 0.5) {
      balance =
          balance.step(
              sampleK.applyAsDouble(t),
              ovenK.applyAsDouble(t),
              roomK.applyAsDouble(t),
              0.5,
              oxygenFree,
              plan);
    }
    return balance;
  }

  @Test
  void whateverStandsStillFromTheStartIsNoHeat() {
    HeatBalance balance = after(3600, t -> 300, t -> 310, t -> 290, false);
    assertEquals(0, balance.excessK().value(), 1e-9);
    assertEquals(0, balance.integralKs(), 1e-6);
  }

  @Test
  void aSampleThatRisesByItselfIsInExcess() {
    HeatBalance balance = after(4000, t -> t == 0 ? 300 : 301, t -> 310, ROOM, false);
    assertEquals(1, balance.excessK().value(), 1e-6);
    assertTrue(balance.integralKs() > 3500 && balance.integralKs() < 4200);
  }

  /** Of an oven that is 10 K warmer 9.6 K arrive, of a room 5 K warmer the rest. */
  @Test
  void ovenAndRoomExplainTheirShares() {
    HeatBalance oven = after(4000, t -> 300, t -> t == 0 ? 310 : 320, ROOM, false);
    assertEquals(-9.6, oven.excessK().value(), 1e-6);
    HeatBalance room = after(4000, t -> 300, t -> 310, t -> t == 0 ? 295 : 300, false);
    assertEquals(-0.2, room.excessK().value(), 1e-6);
  }

  /** Two filters of 120 s pass 1 - (1 + x) exp(-x) of a step at once, x = t/120 s. */
  @Test
  void theRoomIsTakenBehindTheSameTwoFilters() {
    for (double t : new double[] {60, 120, 300}) {
      HeatBalance room = after(t, s -> 300, s -> 310, s -> s == 0 ? 295 : 300, false);
      double x = t / 120;
      assertEquals(-0.2 * (1 - (1 + x) * StrictMath.exp(-x)), room.excessK().value(), 2e-3);
    }
  }

  /** The oven's filters are three: one of 10 s before those two. */
  @Test
  void theOvenIsTakenBehindItsNoiseFilterToo() {
    for (double t : new double[] {30, 120, 300}) {
      HeatBalance oven = after(t, s -> 300, s -> s == 0 ? 310 : 320, ROOM, false);
      double passed = 0;
      double[] x = new double[3];
      double h = 0.01;
      double[] tau = {10, 120, 120};
      for (double s = 0; s < t; s += h) {
        double in = 1;
        for (int i = 0; i < 3; i++) {
          x[i] += h / tau[i] * (in - x[i]);
          in = x[i];
        }
        passed = x[2];
      }
      assertEquals(-9.6 * passed, oven.excessK().value(), 0.06, "at " + t + " s");
    }
  }

  /** T' (tau_v + tau_s) + T = 0.96 T_oven: both rise by 0.01 K/s, the room stays at 300 K. */
  @Test
  void aSampleThatShouldLagBehindARampIsInExcessByThatLag() {
    DoubleUnaryOperator ramp = t -> 300 + 0.01 * t;
    HeatBalance balance = after(4000, ramp, ramp, t -> 300, false);
    double risenK = 0.01 * (4000 - LATE_S);
    assertEquals(0.04 * risenK + 0.01 * 450, balance.excessK().value(), 0.02);
  }

  /** T'' of 1e-4 K/s² counts 4 K by tau_v tau_s. */
  @Test
  void aSampleThatRisesFasterAndFasterIsInExcessByBothLags() {
    double a = 1e-4;
    HeatBalance balance = after(2000, t -> 300 + a * t * t / 2, t -> 300, t -> 300, false);
    double s = 2000 - LATE_S;
    double filteredK = a / 2 * (s * s + 100 + 2 * 14_400);
    assertEquals(filteredK + a * 4e4 + 450 * a * s, balance.excessK().value(), 0.3);
  }

  /** Before anything is learnt: 3 K of offset, 5 % of what arrives, 300 s of lag. */
  @Test
  void theUncertaintyIsWhatTheFourNumbersMayBeOff() {
    HeatBalance still = after(600, t -> 300, t -> 310, t -> 300, false);
    assertEquals(
        StrictMath.sqrt(9 + 0.25 + FLOOR_K * FLOOR_K), still.excessK().standardUncertainty(), 1e-6);
    // The first tick begins it, the second looks; from then on it counts.
    assertEquals(600 * still.excessK().standardUncertainty(), still.integralUncertaintyKs(), 2);
    HeatBalance ramp = after(4000, t -> 300 + 0.01 * t, t -> 300, t -> 300, false);
    double awayK = 0.01 * (4000 - LATE_S);
    double lag = (0.02 + 0.004 * awayK) * 450 * 0.01;
    double known = 9 + StrictMath.pow(300 * 0.01, 2);
    double lost = 0.005 * awayK;
    assertEquals(
        StrictMath.sqrt(known + lag * lag + lost * lost),
        ramp.excessK().standardUncertainty(),
        0.01);
  }

  @Test
  void farFromWhereItWasLearntTheLagIsHardlyKnownButNotWorse() {
    HeatBalance far = after(6000, t -> 300 + 0.05 * t, t -> 300, t -> 300, false);
    double awayK = 0.05 * (6000 - LATE_S);
    assertTrue(0.02 + 0.004 * awayK > 0.6);
    double lag = 0.6 * 450 * 0.05;
    double known = 9 + StrictMath.pow(300 * 0.05, 2);
    assertEquals(
        StrictMath.sqrt(known + lag * lag + StrictMath.pow(0.005 * awayK, 2)),
        far.excessK().standardUncertainty(),
        0.02);
  }

  /** Every ten seconds one equation of 0.12 K²: 1/u² = 1/9 + n/0.12. */
  @Test
  void withoutOxygenTheOffsetIsLearntFromOneEquationAfterTheOther() {
    assertFalse(HeatBalance.NONE.isLearnt());
    assertFalse(after(600, t -> 300, t -> 300, t -> 300, false).isLearnt());
    assertFalse(after(0, t -> 300, t -> 300, t -> 300, true).isLearnt(), "the first tick begins");
    assertTrue(after(0.5, t -> 300, t -> 300, t -> 300, true).isLearnt());
    for (int n : new int[] {1, 2, 10, 60}) {
      HeatBalance learnt = after(0.5 + 10 * (n - 1), t -> 300, t -> 300, t -> 300, true);
      double known = 1 / (1 / 9.0 + n / EQUATION_K2);
      assertEquals(
          StrictMath.sqrt(known + FLOOR_K * FLOOR_K),
          learnt.excessK().standardUncertainty(),
          1e-9,
          n + " equations");
      assertEquals(0, learnt.integralKs(), "no oxygen, no heat of it");
      assertEquals(0, learnt.integralUncertaintyKs());
    }
  }

  /** Where it is learnt far from its start, that is where its loss is known. */
  @Test
  void theLossIsKnownWhereItWasLearnt() {
    HeatBalance moved = after(6000, t -> t == 0 ? 300 : 320, t -> 300, t -> 300, false);
    double away = moved.excessK().standardUncertainty();
    assertEquals(StrictMath.sqrt(9 + FLOOR_K * FLOOR_K + 0.01), away, 1e-6);
    HeatBalance there = on(moved, 6000.5, 6020, t -> 320, t -> 300, t -> 300, true);
    double known = 1 / (1 / 9.0 + 2 / EQUATION_K2);
    assertEquals(
        StrictMath.sqrt(known + FLOOR_K * FLOOR_K), there.excessK().standardUncertainty(), 1e-6);
  }

  /** Excess 1 K, offset known to 3 K: after one equation 0.12/(9 + 0.12) K are left of it. */
  @Test
  void anExcessWithoutOxygenIsTakenForAnErrorOfTheBalance() {
    HeatBalance off = after(6000, t -> t == 0 ? 300 : 301, t -> 300, t -> 300, false);
    assertEquals(1, off.excessK().value(), 1e-9);
    HeatBalance corrected = on(off, 6000.5, 6010, t -> 301, t -> 300, t -> 300, true);
    assertEquals(EQUATION_K2 / (9 + EQUATION_K2), corrected.excessK().value(), 1e-6);
    HeatBalance twice = on(off, 6000.5, 6020, t -> 301, t -> 300, t -> 300, true);
    assertEquals(EQUATION_K2 / (18 + EQUATION_K2), twice.excessK().value(), 1e-6);
  }

  /** Oven 10 K above the room: the same equation tells of offset (9 K²) and share (0.25 K²). */
  @Test
  void whatIsLearntIsSharedByWhatItMayComeFrom() {
    HeatBalance off = after(6000, t -> t == 0 ? 300 : 301, t -> 310, t -> 300, false);
    HeatBalance once = on(off, 6000.5, 6010, t -> 301, t -> 310, t -> 300, true);
    assertEquals(EQUATION_K2 / (9.25 + EQUATION_K2), once.excessK().value(), 1e-6);
    // With the oven as warm as the room only the offset's part shows: 9/9.37 of the excess.
    HeatBalance cold = on(once, 6010.5, 12_000, t -> 301, t -> 300, t -> 300, false);
    double arrives = 0.96 + 0.25 / 10 / (9.25 + EQUATION_K2);
    assertEquals(EQUATION_K2 / (9.25 + EQUATION_K2) + 10 * arrives, cold.excessK().value(), 1e-5);
  }

  @Test
  void theSamplesLagIsTheShorterOfTheTwo() {
    assertEquals(1, HeatBalance.NONE.sampleLagS(), "nothing is known");
    double root = StrictMath.sqrt(225 * 225 - 4e4);
    assertEquals(225 - root, after(0, t -> 300, t -> 300, ROOM, false).sampleLagS(), 1e-9);
  }

  private static HeatBalance byModel() {
    TestRig rig = new TestRig();
    OvenModel model = new OvenModel(0.7, 22, 3, 1700, 0.02, 135, 0, 56, 0, 8000, 0.07);
    rig.regulation =
        rig.regulation.withModel(
            new IdentifiedOven(
                model, new double[11], "quartz tube", LocalDate.of(2026, 1, 1), 0.1));
    Plan plan = Plan.of(TestSteps.recipe(TestSteps.ask()), rig.build());
    HeatBalance balance = HeatBalance.NONE;
    for (int i = 0; i < 4000; i++) {
      balance = balance.step(300, i == 0 ? 310 : 320, 300, 1, false, plan);
    }
    return balance;
  }

  /** Of 10 K of the oven 8000/(8000 + 135) arrive; that is known to 1 %, the offset to 3 K. */
  @Test
  void anIdentifiedOvenTellsLagsAndShareBeforehand() {
    HeatBalance balance = byModel();
    assertEquals(56, balance.sampleLagS(), 1e-6);
    assertEquals(-10 * 8000 / 8135.0, balance.excessK().value(), 1e-6);
    double away = 0;
    assertEquals(
        StrictMath.sqrt(9 + 0.04 + FLOOR_K * FLOOR_K + away),
        balance.excessK().standardUncertainty(),
        1e-6);
  }

  private Recipe of(String charge, String target, OptionalDouble heat) {
    Recipe r = plan.recipe();
    return new Recipe(
        r.title(),
        true,
        new Charge(charge, 4e-3, 1e-6),
        0.063546,
        List.of(new OxideMember(charge, 0), new OxideMember(target, 1)),
        new OxideMember(target, 1),
        r.activationEnergyJPerMol(),
        heat,
        r.vesselName(),
        r.oxygenSourceName(),
        r.steps(),
        List.of());
  }

  @Test
  void theHeatOfReactionIsTheRecipesElseTheTablesElseAUsualOne() {
    assertEquals(312e3, HeatBalance.heatJPerMol(plan.recipe()));
    double table =
        StrictMath.abs(ReactionHeat.between("Cu", "CuO").orElseThrow().enthalpyJPerMolO2());
    assertTrue(table > 2e5, "per mol of O2");
    assertEquals(table, HeatBalance.heatJPerMol(of("Cu", "CuO", OptionalDouble.empty())));
    assertEquals(
        300e3, HeatBalance.heatJPerMol(of("my powder", "its oxide", OptionalDouble.empty())));
    assertEquals(1, HeatBalance.heatJPerMol(of("Cu", "CuO", OptionalDouble.of(0))));
  }

  @Test
  void theChargesHeatCapacityIsItsFormulasElseThatOfOneAtomAUnit() {
    double mol = 4e-3 / 0.063546;
    double copper = SolidHeatCapacity.of(Formula.parse("Cu")).joulePerMolK();
    assertEquals(mol * copper, HeatBalance.chargeJPerK(plan.recipe()), 1e-12);
    assertEquals(
        mol * 3 * 8.31446261815324,
        HeatBalance.chargeJPerK(of("my powder", "its oxide", OptionalDouble.empty())),
        1e-9);
  }

  /** a = 10 C/((tau_v + tau_s) dH), one and a half times as unsure as it is large. */
  @Test
  void theOxygenThatGoesWithHeatIsGuessedFromTheCharge() {
    double joulePerK = HeatBalance.chargeJPerK(plan.recipe());
    Estimate begun = after(0, t -> 300, t -> 300, ROOM, false).molPerKelvinSecond(plan);
    assertEquals(10 * joulePerK / (450 * 312e3), begun.value(), 1e-15);
    assertEquals(1.5 * begun.value(), begun.standardUncertainty(), 1e-15);
    Estimate before = HeatBalance.NONE.molPerKelvinSecond(plan);
    assertEquals(10 * joulePerK / 312e3, before.value(), 1e-12);
  }
}
