package tarnish.shared.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.ledger.LedgerEntry.Addition;
import tarnish.shared.ledger.LedgerEntry.Loss;
import tarnish.shared.ledger.LedgerEntry.Meaning;
import tarnish.shared.ledger.LedgerEntry.Remark;
import tarnish.shared.ledger.LedgerEntry.SampleTaken;
import tarnish.shared.ledger.LedgerEntry.SourceChange;
import tarnish.shared.ledger.LedgerEntry.Transfer;
import tarnish.shared.ledger.LedgerEntry.Uptake;
import tarnish.shared.ledger.LedgerEntry.VesselChange;
import tarnish.shared.ledger.LedgerEntry.Weighing;

class LedgerTest {
  private static final Formula COPPER = Formula.parse("Cu");
  private static final Estimate FOUR_GRAMS = new Estimate(4e-3, 1e-6);
  private static final double UNITS = 4e-3 / 63.546e-3;

  private static LedgerState follow(LedgerEntry... entries) {
    return Ledger.follow(COPPER, FOUR_GRAMS, List.of(entries));
  }

  private static Uptake uptake(double atS, double mmol) {
    return new Uptake(atS, new Estimate(mmol * 1e-3, 0.01e-3), 0.01);
  }

  private static Weighing weighing(double atS, double grams, Meaning meaning) {
    return new Weighing(atS, new Estimate(grams * 1e-3, 3e-6), meaning);
  }

  @Test
  void halfAGramOfOxygenIsHalfOfTheWayToTheOxide() {
    // 62.9465 mmol Cu; to Cu2O 0.5 O each: 4 g × 0.125885 = 0.50354 g.
    LedgerState state = follow(weighing(1, 4.50354, Meaning.COMPOSITION));
    assertEquals(UNITS, state.unitsMol().value(), 1e-12);
    assertEquals(0.5, state.oxygenPerUnit().value(), 1e-5);
    // u: √(3² + (1.126 × 1)²) mg = 3.20 mg over 62.9465 mmol × 15.999 g/mol = 1007.08 mg.
    assertEquals(3.20 / 1007.08, state.oxygenPerUnit().standardUncertainty(), 1e-5);
  }

  @Test
  void gasAloneCountsTwoAtomsForEachMolecule() {
    LedgerState state = follow(uptake(1, 10), uptake(2, 5.7366));
    assertEquals(0.5, state.oxygenPerUnit().value(), 1e-5);
    // Systematic 1 % of 0.5 in a line, random 0.01 mmol twice: √2 × 2 × 0.01/62.95 = 0.00045.
    assertEquals(0.00502, state.oxygenPerUnit().standardUncertainty(), 0.00001);
    assertEquals(4.50354e-3, state.massKg().value(), 1e-7);
  }

  @Test
  void aNewVesselHasASystematicErrorOfItsOwn() {
    LedgerState one = follow(uptake(1, 10), uptake(2, 10));
    LedgerState two = follow(uptake(1, 10), new VesselChange(1.5, "B"), uptake(2, 10));
    assertEquals(one.oxygenPerUnit().value(), two.oxygenPerUnit().value(), 1e-15);
    assertEquals(
        1 / Math.sqrt(2),
        two.oxygenPerUnit().standardUncertainty() / one.oxygenPerUnit().standardUncertainty(),
        0.01);
  }

  @Test
  void aLossScalesTheAmountAndLeavesTheComposition() {
    LedgerState before = follow(uptake(1, 15));
    double mass = before.massKg().value();
    LedgerState after = follow(uptake(1, 15), new Loss(2, Estimate.exact(mass / 4)));
    assertEquals(before.oxygenPerUnit(), after.oxygenPerUnit());
    assertEquals(0.75 * UNITS, after.unitsMol().value(), 1e-12);
    assertEquals(0.75 * mass, after.massKg().value(), 1e-12);
    // Uptake after the loss weighs more, for there is less solid.
    LedgerState later = follow(uptake(1, 15), new Loss(2, Estimate.exact(mass / 4)), uptake(3, 3));
    assertEquals(
        before.oxygenPerUnit().value() + 2 * 3e-3 / (0.75 * UNITS),
        later.oxygenPerUnit().value(),
        1e-12);
  }

  @Test
  void aWeighingAfterAnUnknownLossIsANewReference() {
    // 15 mmol O₂ onto 62.9465 mmol Cu: x = 0.476596. Then 3.600 g of the solid are found.
    LedgerState found = follow(uptake(1, 15), weighing(2, 3.6, Meaning.AMOUNT));
    assertEquals(0.476596, found.oxygenPerUnit().value(), 1e-6);
    double unitGrams = 63.546 + 0.476596 * 15.999;
    assertEquals(3.6e-3 / (unitGrams * 1e-3), found.unitsMol().value(), 1e-7);
    // 0.1 g more is oxygen: 6.2504 mmol O on 50.584 mmol units = 0.12357 more.
    LedgerState later =
        follow(
            uptake(1, 15), weighing(2, 3.6, Meaning.AMOUNT), weighing(3, 3.7, Meaning.COMPOSITION));
    assertEquals(0.476596 + 0.123566, later.oxygenPerUnit().value(), 5e-6);
    // What the gas did not know before the loss is not known after it either.
    assertTrue(
        later.oxygenPerUnit().standardUncertainty() >= found.oxygenPerUnit().standardUncertainty());
  }

  @Test
  void gasAndMassAreJoinedAndTheBetterOneCarriesMoreWeight() {
    LedgerState state = follow(uptake(1, 15.8), weighing(2, 4.50354, Meaning.COMPOSITION));
    assertTrue(state.witnesses().orElseThrow().agree());
    assertTrue(state.witnesses().orElseThrow().weights().get(1) > 0.6);
    assertEquals(0.5006, state.oxygenPerUnit().value(), 1e-4);
    assertEquals(0.50201, state.byGas().orElseThrow().value(), 1e-5);
    LedgerState later =
        follow(uptake(1, 15.8), weighing(2, 4.50354, Meaning.COMPOSITION), uptake(3, 3.14733));
    assertEquals(state.oxygenPerUnit().value() + 0.1, later.oxygenPerUnit().value(), 1e-5);
  }

  @Test
  void contradictingWitnessesAreSaidToContradictAndWidenTheResult() {
    // The gas says 0.6, the balance 0.5: a leak, or a loss that nobody entered.
    LedgerState state = follow(uptake(1, 18.88), weighing(2, 4.50354, Meaning.COMPOSITION));
    assertFalse(state.witnesses().orElseThrow().agree());
    assertTrue(
        state.oxygenPerUnit().standardUncertainty()
            > 5 * state.witnesses().orElseThrow().joined().standardUncertainty());
  }

  @Test
  void freshChargeDilutesTheOxide() {
    // Half as much fresh copper again: x falls to two thirds.
    LedgerState state =
        follow(
            uptake(1, 15),
            new Addition(2, new Estimate(2e-3, 1e-6), Estimate.exact(0)),
            new Remark(3, "invented"),
            new SourceChange(4, "concentrator", new Estimate(0.93, 0.01)));
    assertEquals(0.476596 * 2 / 3, state.oxygenPerUnit().value(), 1e-6);
    assertEquals(1.5 * UNITS, state.unitsMol().value(), 1e-12);
    assertEquals(4, state.atS());
  }

  /**
   * No sequence of losses, samples, transfers and additions of the same solid changes what it is.
   */
  @Test
  void compositionSurvivesAnySequenceOfLossesSamplesAndAdditionsOfTheSame() {
    for (long seed = 0; seed < 500; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      List<LedgerEntry> entries = new ArrayList<>(List.of(uptake(0, 1 + 25 * random.nextDouble())));
      LedgerState start = Ledger.follow(COPPER, FOUR_GRAMS, entries);
      Estimate same = new Estimate(start.oxygenPerUnit().value(), 0.01);
      double kg = start.massKg().value();
      int steps = random.nextInt(1, 30);
      for (int i = 1; i <= steps; i++) {
        double part = kg * random.nextDouble(0, 0.4);
        Estimate mass = new Estimate(part, 0.01 * part);
        int kind = random.nextInt(4);
        entries.add(
            switch (kind) {
              case 0 -> new Loss(i, mass);
              case 1 -> new SampleTaken(i, mass);
              case 2 -> new Transfer(i, "boat", mass);
              default -> new Addition(i, mass, same);
            });
        kg += kind == 3 ? part : -part;
      }
      String message = "seed " + seed;
      LedgerState end = Ledger.follow(COPPER, FOUR_GRAMS, entries);
      assertEquals(same.value(), end.oxygenPerUnit().value(), 1e-12, message);
      assertEquals(same.value(), end.byGas().orElseThrow().value(), 1e-12, message);
      assertEquals(kg, end.massKg().value(), 1e-12 * kg, message);
      entries.add(new Weighing(steps + 1, new Estimate(kg, 1e-6 * kg), Meaning.COMPOSITION));
      LedgerState weighed = Ledger.follow(COPPER, FOUR_GRAMS, entries);
      assertEquals(same.value(), weighed.byMass().orElseThrow().value(), 1e-9, message);
    }
  }

  @Test
  void theStatedUncertaintyHoldsTheTruthAsOftenAsItShould() {
    int inside = 0;
    int trials = 2000;
    for (long seed = 0; seed < trials; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double weighedIn = 4e-3 + 1e-6 * random.nextGaussian();
      double gain = 1 + 0.01 * random.nextGaussian();
      double firstMol = 10e-3;
      double seenMol = firstMol * gain + 1e-5 * random.nextGaussian();
      double lossKg = 0.3e-3;
      double massKg = 4e-3 + firstMol * 2 * 15.999e-3;
      double kept = 1 - lossKg / massKg;
      double secondMol = 8e-3;
      double endKg = massKg * kept + secondMol * 2 * 15.999e-3;
      double truth = 2 * firstMol / UNITS + 2 * secondMol / (UNITS * kept);
      LedgerState state =
          Ledger.follow(
              COPPER,
              new Estimate(weighedIn, 1e-6),
              List.of(
                  new Uptake(1, new Estimate(seenMol, 1e-5), 0.01),
                  new Loss(2, new Estimate(lossKg + 2e-6 * random.nextGaussian(), 2e-6)),
                  new Uptake(
                      3, new Estimate(secondMol * gain + 1e-5 * random.nextGaussian(), 1e-5), 0.01),
                  new Weighing(
                      4,
                      new Estimate(endKg + 3e-6 * random.nextGaussian(), 3e-6),
                      Meaning.COMPOSITION)));
      Estimate oxygen = state.oxygenPerUnit();
      inside += Math.abs(oxygen.value() - truth) <= 1.96 * oxygen.standardUncertainty() ? 1 : 0;
    }
    assertTrue(inside >= 0.93 * trials && inside <= 0.97 * trials, inside + " of " + trials);
  }

  @Test
  void whatCannotHaveHappenedIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> follow(new Loss(1, Estimate.exact(5e-3))));
    assertThrows(IllegalArgumentException.class, () -> follow(uptake(2, 1), uptake(1, 1)));
    assertThrows(IllegalArgumentException.class, () -> follow(new Remark(Double.NaN, "")));
    assertThrows(IllegalArgumentException.class, () -> new Loss(1, Estimate.exact(-1e-3)));
    assertThrows(IllegalArgumentException.class, () -> new Uptake(1, Estimate.exact(1e-3), 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Weighing(1, Estimate.exact(4e-3), Meaning.AMOUNT));
  }
}
