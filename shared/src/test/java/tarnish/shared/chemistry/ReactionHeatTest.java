package tarnish.shared.chemistry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReactionHeatTest {
  // kJ per mol O2 by hand from the formation enthalpies of the NBS tables (1982). Two are also
  // published as reactions: 2 BaO2 -> 2 BaO + O2 161.6 kJ, 4 CuO -> 2 Cu2O + O2 292.0 kJ.
  @ParameterizedTest
  @CsvSource({
    "BaO, BaO2, -161.6, false",
    "Cu2O, CuO, -292.0, true",
    "Cu, Cu2O, -337.2, true",
    "Cu, CuO, -314.6, true",
    "Mg, MgO, -1203.4, true",
    "Ni, NiO, -479.4, true",
    "Fe, Fe3O4, -559.2, true",
    "Fe, Fe2O3, -549.4667, true",
    "Fe3O4, Fe2O3, -471.6, true",
    "Na, Na2O, -828.44, true",
    "Na2O, Na2O2, -193.3, true",
    "K, KO2, -284.93, true",
    "Ba, BaO, -1107.0, false"
  })
  void heatPerMoleOfOxygenFollowsFromTheFormationEnthalpies(
      String from, String to, double kilojoule, boolean fromMemory) {
    ReactionHeat heat = ReactionHeat.between(from, to).orElseThrow();
    assertEquals(kilojoule, heat.enthalpyJPerMolO2() / 1e3, 0.001);
    assertEquals(fromMemory, heat.fromMemory());
    assertEquals(FormationEnthalpies.NBS_1982, heat.source());
  }

  // 4 CuO -> 2 Cu2O + O2: 282.84 kJ from the JANAF set (1998).
  @Test
  void theOtherSetGivesItsOwnHeat() {
    ReactionHeat heat =
        ReactionHeat.between("Cu2O", "CuO", FormationEnthalpies.JANAF_1998).orElseThrow();
    assertEquals(-282.84, heat.enthalpyJPerMolO2() / 1e3, 0.02);
    assertEquals(FormationEnthalpies.JANAF_1998, heat.source());
  }

  // BaO is in both sets and BaO2 in one: mixing them would give -172.4 kJ instead of -161.6 kJ.
  @Test
  void aReactionIsNotMadeUpFromTwoSets() {
    assertEquals(
        Optional.empty(), ReactionHeat.between("BaO", "BaO2", FormationEnthalpies.JANAF_1998));
  }

  @Test
  void theStepsOfASeriesAddUp() {
    double first = ReactionHeat.between("Cu", "Cu2O").orElseThrow().enthalpyJPerMolO2();
    double second = ReactionHeat.between("Cu2O", "CuO").orElseThrow().enthalpyJPerMolO2();
    double whole = ReactionHeat.between("Cu", "CuO").orElseThrow().enthalpyJPerMolO2();
    assertEquals(whole, (first + second) / 2, 1e-6);
  }

  @Test
  void aCoupleThatIsNotTabulatedHasNoHeatAndIsNotGuessed() {
    assertEquals(Optional.empty(), ReactionHeat.between("Zn", "ZnO"));
  }

  @Test
  void aReductionOrAnotherMetalIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> ReactionHeat.between("CuO", "Cu2O"));
    assertThrows(IllegalArgumentException.class, () -> ReactionHeat.between("Cu", "BaO"));
  }
}
