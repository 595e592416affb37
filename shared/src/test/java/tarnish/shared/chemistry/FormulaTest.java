package tarnish.shared.chemistry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FormulaTest {
  private static final long SEED = 118;

  @Test
  void countsAtomsOfElementsGroupsAndHydrates() {
    assertEquals(Map.of("Fe", 3, "O", 4), Formula.parse("Fe3O4").atoms());
    assertEquals(Map.of("Ba", 1, "O", 10, "H", 18), Formula.parse("Ba(OH)2·8H2O").atoms());
    assertEquals(Map.of("Cu", 1, "S", 1, "O", 9, "H", 10), Formula.parse("CuSO4*5H2O").atoms());
    assertEquals(Map.of("K", 4, "Fe", 1, "C", 6, "N", 6), Formula.parse("K4[Fe(CN)6]").atoms());
    assertEquals(Map.of("Al", 2, "S", 3, "O", 12), Formula.parse("Al2(S(O2)2)3").atoms());
    assertEquals(Map.of("Cu", 2, "O", 1), Formula.parse("Cu₂O").atoms());
  }

  @Test
  void capitalsTellCobaltFromCarbonMonoxide() {
    assertEquals(Map.of("Co", 1), Formula.parse("Co").atoms());
    assertEquals(Map.of("C", 1, "O", 1), Formula.parse("CO").atoms());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "''|1",
        "2Cu|1",
        "cuO|1",
        "Fe2o3|4",
        "CuXx|3",
        "Cu0|3",
        "Cu(OH|6",
        "Cu)|3",
        "(OH]2|4",
        "()|2",
        "CuSO4·|7",
        "Fe0.95O|3",
        "Fe1.5O|4",
        "Cu O|3",
        "Cu2+|4",
        "Cu99999|3",
        "Copper|1",
        "Cu\0O|3",
        "Ba(OH)2··8H2O|9",
        "CuSO4.5H2O|6"
      })
  void whatCannotBeReadIsRefusedWithItsPosition(String text, int position) {
    FormulaException refused =
        assertThrows(FormulaException.class, () -> Formula.parse(text), text);
    assertEquals(position, refused.position(), refused.getMessage());
    assertTrue(refused.getMessage().contains(refused.expected()));
  }

  @ParameterizedTest
  @CsvSource({"cuO, Cu", "Fe2o3, O", "CuXe2, Xe", "BaO2Cq, C"})
  void theMessageNamesTheNearestElementOrWhatStoodThere(String text, String named) {
    String message = assertThrows(FormulaException.class, () -> Formula.parse(text)).getMessage();
    assertTrue(message.contains(named), message);
  }

  @Test
  void theMessageReadsAsAChemistWouldSayIt() {
    FormulaException refused = assertThrows(FormulaException.class, () -> Formula.parse("Fe2o3"));
    assertEquals(
        "formula \"Fe2o3\", character 4: found \"o\", expected an element symbol (a capital letter"
            + " first) or (, a whole-number count, · or the end; did you mean O?",
        refused.getMessage());
  }

  @ParameterizedTest
  @ValueSource(strings = {"(((((((((Cu9999)9999)9999)9999)9999)9999)9999)9999)9999)", "Cu(((("})
  void absurdCountsAndNestingAreRefusedAndDoNotOverflow(String text) {
    assertThrows(FormulaException.class, () -> Formula.parse(text));
    assertThrows(FormulaException.class, () -> Formula.parse("(".repeat(100_000)));
  }

  @Test
  void noRandomTextDoesAnythingButReadOrRefuse() {
    SplittableRandom random = new SplittableRandom(SEED);
    String letters = "CuOFeBa()[]·*0129 o₂+-.é\0";
    int read = 0;
    for (int i = 0; i < 20_000; i++) {
      StringBuilder text = new StringBuilder();
      for (int j = random.nextInt(12); j >= 0; j--) {
        text.append(letters.charAt(random.nextInt(letters.length())));
      }
      try {
        Formula formula = Formula.parse(text.toString());
        assertTrue(formula.molarMassKgPerMol().value() > 0);
        read++;
      } catch (FormulaException refused) {
        assertTrue(refused.position() >= 1 && refused.position() <= text.length() + 1);
      }
    }
    assertTrue(read > 100, "the generator must also make formulas, made " + read);
  }

  // Sums of the abridged standard atomic weights (IUPAC 2021), in g/mol.
  @ParameterizedTest
  @CsvSource({
    "CuO, 79.545",
    "Cu2O, 143.091",
    "BaO, 153.329",
    "BaO2, 169.328",
    "MgO, 40.304",
    "O2, 31.998"
  })
  void molarMassIsTheSumOfTheAtomicWeights(String text, double gramPerMol) {
    assertEquals(gramPerMol, 1e3 * Formula.parse(text).molarMassKgPerMol().value(), 1e-9);
  }

  @Test
  void uncertaintyAddsLinearlyWithinAnElementAndInQuadratureBetween() {
    double copper = 0.003;
    double oxygen = (15.99977 - 15.99903) / Math.sqrt(12);
    assertEquals(
        Math.hypot(2 * copper, oxygen) * 1e-3,
        Formula.parse("Cu2O").molarMassKgPerMol().standardUncertainty(),
        1e-15);
  }

  @Test
  void everyElementHasAWeightAboveZeroWithAnUncertainty() {
    assertTrue(AtomicWeights.symbols().size() >= 72);
    for (String symbol : AtomicWeights.symbols()) {
      double value = AtomicWeights.of(symbol).value();
      double relative = AtomicWeights.of(symbol).standardUncertainty() / value;
      assertTrue(value >= 1 && value < 240, symbol);
      assertTrue(relative > 0 && relative < 0.003, symbol);
    }
    assertEquals(15.999, AtomicWeights.of("O").value());
    assertEquals(9.0121831, AtomicWeights.of("Be").value());
    assertEquals(5e-7, AtomicWeights.of("Be").standardUncertainty(), 1e-20);
    assertEquals(0.01 / Math.sqrt(3), AtomicWeights.of("Ba").standardUncertainty(), 1e-15);
  }

  @Test
  void anUnknownElementIsRefusedWithTheNearest() {
    String message =
        assertThrows(IllegalArgumentException.class, () -> AtomicWeights.of("CU")).getMessage();
    assertTrue(message.contains("did you mean Cu?"), message);
    assertEquals(List.of(), AtomicWeights.nearest("Qq").stream().toList());
  }
}
