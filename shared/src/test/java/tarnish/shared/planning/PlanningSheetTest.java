package tarnish.shared.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Vessel;

/** Numbers by hand for 4.000 g of copper (62.947 mmol) in 250 mL hot and 80 mL cold. */
class PlanningSheetTest {
  private static PlanLine line(PlanningSheet sheet, String what) {
    return sheet.lines().stream()
        .filter(line -> line.what().equals(what))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no line '" + what + "' in " + sheet.lines()));
  }

  private static double number(PlanningSheet sheet, String what) {
    return line(sheet, what).number().orElseThrow().value();
  }

  private static CopperBench usual() {
    return new CopperBench().purge(5, 900, 3).evacuate().dose(15, 550, 200).heat(290, 900);
  }

  @Test
  void oxygenAndMassOfTheCopperAreThoseOfTheStoichiometry() {
    PlanningSheet sheet = usual().sheet();
    // 4 g × 7.868316 mmol/g = 31.473 mmol; 4 g × 1.251770 = 5.0071 g.
    assertEquals(31.473e-3, number(sheet, "oxygen to become CuO"), 1e-6);
    assertEquals("(31.4733 ± 0.0080) mmol", line(sheet, "oxygen to become CuO").value());
    assertEquals("(5.0071 ± 0.0013) g", line(sheet, "mass as CuO").value());
    // 31.473 mmol / 0.995 × R × 293.15 K / 101300 Pa = 0.7611 L, 2.306 fills of 330 mL.
    assertEquals("0.761 L", line(sheet, "as gas from the source").value());
    assertEquals("2.3", line(sheet, "in fills of the vessel").value());
    // 31.473 mmol × 0.005/0.995 = 0.1582 mmol in 13.715 mmol of gas.
    assertEquals(0.01153, number(sheet, "inert gas left behind by the source"), 1e-5);
  }

  @Test
  void aPulseOfFifteenMillibarHeatsTheCopperByFortyOneKelvin() {
    PlanningSheet sheet = usual().sheet();
    // 1500 Pa × 330 cm³ / (R × 293.15 K) = 0.20309 mmol; × 0.995 × 312 kJ/mol = 63.05 J;
    // 62.947 mmol × 24.44 J/(mol K) = 1.5384 J/K.
    assertEquals(0.20309e-3, number(sheet, "dose: gas in one pulse"), 1e-8);
    assertEquals("63 J", line(sheet, "dose: heat of one pulse").value());
    assertEquals(40.98, number(sheet, "dose: adiabatic rise of the solid"), 0.01);
    assertEquals("41 K", line(sheet, "dose: adiabatic rise of the solid").value());
    // (550 - 1)/15 = 36.6; 31.473/(0.20309 × 0.995) = 155.7.
    assertEquals(
        "37 to the end pressure, about 160 for all the oxygen",
        line(sheet, "dose: pulses").value());
  }

  @Test
  void pressureWithoutUptakeIsTheGasLawInBothZonesOrWhatIsHeld() {
    // 1 + 37 × 15 = 556 mbar at 20 °C: Σ V/T goes from 1.12570 to 0.71683 cm³/K at 290 °C, which
    // makes 873 mbar; 900 are held.
    PlanningSheet held = usual().sheet();
    assertEquals(900e2, number(held, "highest pressure, hot"), 1);
    assertEquals("900 mbar at 290 °C", line(held, "highest pressure, hot").value());
    PlanningSheet free = new CopperBench().evacuate().dose(15, 900, 200).heat(290, 100).sheet();
    assertEquals(901e2 * 1.12570 / 0.71683, number(free, "highest pressure, hot"), 15);
    assertEquals(Verdict.WARNING, line(free, "highest pressure, hot").verdict());
  }

  @Test
  void quartzIsRatedByItsWallAndBorosilicateNotAtAllWhenHot() {
    // 6.895 MPa × 2 mm / 22 mm = 6.268 bar; oven 80 K ahead of 290 °C.
    PlanLine quartz = line(usual().sheet(), "overpressure the glass may hold");
    assertEquals("6270 mbar at 370 °C", quartz.value());
    assertEquals(Verdict.OK, quartz.verdict());
    CopperBench borosilicate = usual();
    borosilicate.glass = Vessel.Glass.BOROSILICATE;
    PlanLine soft = line(borosilicate.sheet(), "overpressure the glass may hold");
    assertEquals(Verdict.WARNING, soft.verdict());
    assertTrue(soft.source().contains("NO PRESSURE VESSEL"));
  }

  @Test
  void whatTheRigFileDoesNotSayIsSaidToBeOpen() {
    PlanningSheet sheet = usual().sheet();
    assertEquals(Verdict.OPEN, line(sheet, "does the source last").verdict());
    assertEquals(Verdict.OPEN, line(sheet, "does the glass stand vacuum").verdict());
    assertEquals(0, sheet.count(Verdict.WARNING));
    CopperBench unknown = usual();
    unknown.seal = "putty";
    assertEquals(
        Verdict.OPEN, line(unknown.sheet(), "usual limit of the seal's material").verdict());
  }

  @Test
  void aDoseThatCouldCarryTheSampleOverItsLimitIsWarnedOf() {
    CopperBench bench = new CopperBench().evacuate().dose(40, 550, 200);
    // 40 mbar: 109 K adiabatic.
    bench.sampleMaxK = 120 + CopperBench.ZERO_C;
    PlanLine rise = line(bench.sheet(), "dose: adiabatic rise of the solid");
    assertEquals(Verdict.WARNING, rise.verdict());
    assertTrue(rise.source().contains("make the pulse smaller"));
    bench.sampleMaxK = 140 + CopperBench.ZERO_C;
    assertEquals(Verdict.OK, line(bench.sheet(), "dose: adiabatic rise of the solid").verdict());
  }

  @Test
  void tooFewPulsesForTheEndPressureAreWarnedOf() {
    CopperBench bench = new CopperBench().evacuate().dose(15, 550, 36);
    assertEquals(Verdict.WARNING, line(bench.sheet(), "dose: pulses").verdict());
  }

  @Test
  void heatComesFromTheTablesWhereTheRecipeGivesNone() {
    CopperBench bench = usual();
    bench.enthalpy = OptionalDouble.empty();
    PlanLine heat = line(bench.sheet(), "dose: heat of one pulse");
    // NBS: CuO -157.3 kJ/mol, -314.6 for each O₂: 63.57 J.
    assertEquals(63.57, heat.number().orElseThrow().value(), 0.01);
    assertTrue(heat.source().contains("NBS Tables 1982"));
  }

  @Test
  void purgesAreHeldAgainstTheWantedResidual() {
    // 0.20946 × (5/900)³ + 5 ppm of the argon: 5.04 ppm. Two cycles leave 11.5 ppm.
    PlanningSheet good = usual().sheet();
    assertEquals(5.036e-6, number(good, "purge: oxygen left in the gas"), 1e-9);
    assertEquals("2 for 100 ppm", line(good, "purge: cycles needed").value());
    CopperBench poor = new CopperBench().purge(50, 900, 1).dose(15, 550, 200);
    assertEquals(Verdict.WARNING, line(poor.sheet(), "purge: oxygen left in the gas").verdict());
    CopperBench dirty = usual();
    dirty.inertOxygenFraction = 2e-4;
    assertEquals("none are enough", line(dirty.sheet(), "purge: cycles needed").value());
    assertEquals(
        Verdict.WARNING,
        line(new CopperBench().dose(15, 1050, 200).sheet(), "air before the first oxygen")
            .verdict());
  }

  @Test
  void aPurgeThatNoOxygenFollowsNeedNotBeGood() {
    PlanningSheet sheet = new CopperBench().evacuate().dose(15, 550, 99).purge(50, 900, 1).sheet();
    assertEquals(Verdict.OK, line(sheet, "purge: oxygen left in the gas").verdict());
  }

  @Test
  void leanOxygenThatBlanketsTheSolidIsWarnedOf() {
    CopperBench bench = usual();
    bench.oxygenFraction = 0.9;
    // 31.473 mmol / 9 = 3.497 mmol in 13.715 mmol.
    assertEquals(0.255, number(bench.sheet(), "inert gas left behind by the source"), 0.001);
    assertEquals(
        Verdict.WARNING, line(bench.sheet(), "inert gas left behind by the source").verdict());
  }

  @Test
  void aSealRatedAboveItsMaterialIsWarnedOf() {
    CopperBench bench = usual();
    bench.sealRatingK = 300 + CopperBench.ZERO_C;
    assertEquals(
        Verdict.WARNING, line(bench.sheet(), "usual limit of the seal's material").verdict());
    bench.sealRatingK = 150 + CopperBench.ZERO_C;
    assertEquals(Verdict.WARNING, line(bench.sheet(), "seal").verdict());
  }

  @Test
  void timesAddUpAndRepeatsRunOut() {
    CopperBench bench = new CopperBench().heat(290, 100);
    Step.Repeat repeat =
        new Step.Repeat(
            CopperBench.common("again"),
            3,
            new RepeatUntil.CountOnly(),
            List.of(
                new Step.Ramp(CopperBench.common("down"), 200 + CopperBench.ZERO_C, 0.05),
                new Step.Ramp(CopperBench.common("up"), 290 + CopperBench.ZERO_C, 0.05)));
    bench.steps.add(repeat);
    PlanningSheet sheet = bench.sheet();
    // 270 K at 3 K/min and an hour; three times 2 × 90 K.
    assertEquals("1 h 30 min", line(sheet, "step 1, ramp").value());
    assertEquals("1 h", line(sheet, "step 2, soak").value());
    assertEquals(3 * 3600, number(sheet, "step 3, again"), 1e-6);
    assertEquals(5.5 * 3600, number(sheet, "all steps"), 1e-6);
  }

  @Test
  void noValueIsEmptyAndNoWantedResidualIsNonsense() {
    for (PlanLine line : usual().sheet().lines()) {
      assertFalse(line.value().isBlank(), line.what());
      assertFalse(line.source().isBlank(), line.what());
    }
    CopperBench bench = usual();
    for (double bad : new double[] {0, 1, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> PlanningSheet.of(bench.recipe(), bench.rig(), bad));
    }
  }
}
