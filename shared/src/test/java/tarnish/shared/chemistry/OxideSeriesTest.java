package tarnish.shared.chemistry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.OxideMember;

class OxideSeriesTest {
  private static final long SEED = 16;
  private static final OxideSeries COPPER = OxideSeries.of(List.of("Cu", "Cu2O", "CuO"));

  @Test
  void oxygenIsCountedPerFormulaUnitOfTheCharge() {
    assertEquals(
        List.of(new OxideMember("Cu", 0), new OxideMember("Cu2O", 0.5), new OxideMember("CuO", 1)),
        COPPER.members());
    assertEquals(
        List.of(new OxideMember("BaO", 0), new OxideMember("BaO2", 1)),
        OxideSeries.of(List.of("BaO", "BaO2")).members());
    assertEquals(
        List.of(new OxideMember("Fe3O4", 0), new OxideMember("Fe2O3", 0.5)),
        OxideSeries.of(List.of("Fe3O4", "Fe2O3")).members());
    assertEquals(
        List.of(new OxideMember("CuFeS2", 0), new OxideMember("CuFe(SO4)2", 8)),
        OxideSeries.of(List.of("CuFeS2", "CuFe(SO4)2")).members());
  }

  // Computed from the abridged standard atomic weights (IUPAC 2021). The weights used here carry
  // more digits for some elements (Al, Na, K, Ni, Ti), which moves the result by up to 2 in 10^5.
  @ParameterizedTest
  @CsvSource({
    "Cu, CuO, 25.1770, 7.868316E-3",
    "Cu, Cu2O, 12.5885, 3.934158E-3",
    "Cu2O, CuO, 11.1810, 3.494280E-3",
    "BaO, BaO2, 10.4344, 3.260962E-3",
    "Mg, MgO, 65.8260, 2.057190E-2",
    "Ni, NiO, 27.2588, 8.518903E-3",
    "Fe, Fe3O4, 38.1986, 1.193780E-2",
    "Fe, Fe2O3, 42.9734, 1.343003E-2",
    "Fe3O4, Fe2O3, 3.4550, 1.079769E-3",
    "Na, Na2O, 34.7956, 1.087429E-2",
    "Na, Na2O2, 69.5911, 2.174859E-2",
    "K, KO2, 81.8405, 2.557676E-2",
    "Al, Al2O3, 88.9426, 2.779631E-2",
    "Zn, ZnO, 24.4708, 7.647599E-3",
    "Ti, TiO2, 66.8477, 2.089122E-2",
    "Zr, ZrO2, 35.0763, 1.096203E-2"
  })
  void massGainAndOxygenNeededAgreeWithTheStoichiometry(
      String charge, String oxide, double gainPercent, double molPerGram) {
    OxideSeries series = OxideSeries.of(List.of(charge, oxide));
    double oxygen = series.members().get(1).oxygenPerUnit();
    boolean abridged =
        List.of("Cu", "Cu2O", "BaO", "Mg", "Fe", "Fe3O4", "Zn", "Ti", "Zr").contains(charge);
    double allowed = abridged ? 0.00005 : 2e-5 * gainPercent;
    assertEquals(gainPercent, 100 * series.massGainFraction(oxygen).value(), allowed);
    assertEquals(
        1e3 * molPerGram, series.oxygenMolPerKgCharge(oxygen).value(), 2e-5 * 1e3 * molPerGram);
  }

  // 10.000 g BaO take up 0.0326096 mol O2, 1.04344 g.
  @Test
  void tenGramsOfBariumOxideNeedAMeasuredAmountOfOxygen() {
    OxideSeries series = OxideSeries.of(List.of("BaO", "BaO2"));
    assertEquals(0.0326096, 0.010 * series.oxygenMolPerKgCharge(1).value(), 5e-8);
    assertEquals(1.04344e-3, 0.010 * series.massGainFractions().get(1).value(), 5e-9);
    assertEquals(0, series.massGainFractions().get(0).value());
  }

  // Propagation checked by moving each weight by its own uncertainty (JCGM 100:2008, 5.1.3 note 2).
  @Test
  void uncertaintyOfTheGainFollowsFromTheAtomicWeights() {
    Estimate barium = AtomicWeights.of("Ba");
    Estimate oxygen = AtomicWeights.of("O");
    double gain = oxygen.value() / (barium.value() + oxygen.value());
    double moreBarium =
        oxygen.value() / (barium.value() + barium.standardUncertainty() + oxygen.value());
    double heavier = oxygen.value() + oxygen.standardUncertainty();
    double moreOxygen = heavier / (barium.value() + heavier);
    double expected = Math.hypot(moreBarium - gain, moreOxygen - gain);
    double actual =
        OxideSeries.of(List.of("BaO", "BaO2")).massGainFraction(1).standardUncertainty();
    assertEquals(expected, actual, 1e-3 * expected);
    assertTrue(expected > 0);
  }

  @Test
  void theLeverRuleDividesBetweenNeighbours() {
    OxideMixture mixture = COPPER.lever(0.75);
    assertEquals("Cu2O", mixture.lower().formula());
    assertEquals("CuO", mixture.upper().formula());
    assertEquals(0.5, mixture.lowerFraction(), 1e-15);
    assertEquals(0.5, mixture.upperFraction(), 1e-15);
    // Half the copper as CuO (79.545 g/mol), half as Cu2O (143.091 g for two).
    assertEquals(79.545 / (79.545 + 143.091 / 2), mixture.upperMassFraction(), 1e-12);
    assertEquals(0, mixture.beyond());
  }

  @Test
  void aMemberItselfIsPure() {
    assertEquals(1, COPPER.lever(0).lowerFraction());
    assertEquals("Cu", COPPER.lever(0).lower().formula());
    assertEquals(1, COPPER.lever(0.5).upperFraction());
    assertEquals("Cu2O", COPPER.lever(0.5).upper().formula());
    assertEquals(1, COPPER.lever(1).upperFraction());
    assertEquals(1, COPPER.lever(1).upperMassFraction(), 1e-15);
  }

  @Test
  void outsideTheSeriesTheEndMemberStandsAndTheExcessIsTold() {
    OxideMixture tooMuch = COPPER.lever(1.02);
    assertEquals(1, tooMuch.upperFraction());
    assertEquals(0.02, tooMuch.beyond(), 1e-12);
    OxideMixture tooLittle = COPPER.lever(-0.01);
    assertEquals(1, tooLittle.lowerFraction());
    assertEquals(-0.01, tooLittle.beyond(), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> COPPER.lever(Double.NaN));
  }

  @Test
  void theMixtureHoldsExactlyTheOxygenItWasMadeFrom() {
    OxideSeries iron = OxideSeries.of(List.of("Fe", "FeO", "Fe3O4", "Fe2O3"));
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 2000; i++) {
      double oxygen = random.nextDouble(0, 1.5);
      OxideMixture mixture = iron.lever(oxygen);
      double back =
          mixture.lowerFraction() * mixture.lower().oxygenPerUnit()
              + mixture.upperFraction() * mixture.upper().oxygenPerUnit();
      assertEquals(oxygen, back, 1e-12, "seed " + SEED);
      assertTrue(mixture.upperMassFraction() >= mixture.upperFraction() - 1e-12);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Cu,Fe2O3|no oxide of Cu: besides oxygen it holds Fe, the charge holds Cu",
        "CuFeS2,Cu2FeS4O8|stand 2 : 1 in it and 1 : 1 in the charge",
        "Cu,CuO,Cu2O|Cu2O comes after CuO but holds no more oxygen",
        "BaO,Ba|Ba comes after BaO but holds no more oxygen",
        "CuO,Cu2O2|Cu2O2 comes after CuO but holds no more oxygen",
        "O2,O3|nothing to be oxidised",
        "Cu|at least one oxide",
        "Cu,Cuo|the symbol of a known element"
      })
  void whatIsNoSeriesIsRefusedInWords(String formulas, String words) {
    String message =
        assertThrows(
                IllegalArgumentException.class, () -> OxideSeries.of(List.of(formulas.split(","))))
            .getMessage();
    assertTrue(message.contains(words), message);
  }
}
