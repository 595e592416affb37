package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.rig.Limits;

class RehearsalTest {
  private static final double ALLOWED_O_PER_CU = 0.05;

  private static RehearsalResult rehearse(LoadedFiles files, long seed) {
    return new Rehearsal(files, seed, Optional.empty()).run();
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void theCopperBatchEndsCompleteWithinItsLimitsAndKnowsWhatItHolds(long seed) {
    LoadedFiles files = Demo.copper();
    RehearsalResult result = rehearse(files, seed);

    assertTrue(result.isComplete(), result::words);
    assertEquals(0, result.trips(), result::words);
    assertEquals(0, result.alarms(), result::words);
    Limits limits = files.rig().attended();
    assertTrue(result.peakTemperatureK() < limits.sampleMaxK(), result::words);
    assertTrue(result.peakPressurePa() < limits.pressureMaxPa(), result::words);
    assertEquals(
        result.plantOxygenPerFormulaUnit(),
        result.oxygenPerFormulaUnit().value(),
        ALLOWED_O_PER_CU,
        result::words);
    assertTrue(result.oxygenPerFormulaUnit().standardUncertainty() < ALLOWED_O_PER_CU);
    assertTrue(result.soaks().size() >= 4);
    for (RehearsalResult.SoakLine soak : result.soaks()) {
      assertTrue(soak.inBandSeconds() >= soak.requiredSeconds(), result::words);
    }
  }

  @Test
  void theGasAloneAgreesWithThePlantWithinThreeOfItsUncertainties() {
    for (long seed = 21; seed <= 25; seed++) {
      LoadedFiles files = Demo.copper();
      RehearsalResult result = rehearse(files, seed);
      double plantMol = result.plantOxygenPerFormulaUnit() * files.recipe().chargeMol() / 2;
      Estimate gas = result.oxygenUptakeMol();
      double away = Math.abs(gas.value() - plantMol);
      assertTrue(away < 3 * gas.standardUncertainty(), "seed " + seed + "\n" + result.words());
    }
  }

  @ParameterizedTest
  @CsvSource({"barium-peroxide,bench", "catalyst-passivation,catalyst"})
  void theOtherScenariosEndCompleteToo(String recipe, String rig) {
    LoadedFiles files =
        LoadedFiles.read(
            Path.of("../sim/demo/" + recipe + ".recipe.yaml"),
            Path.of("../sim/demo/" + rig + ".rig.yaml"));
    RehearsalResult result = rehearse(files, 3);
    assertTrue(result.isComplete(), result::words);
    assertEquals(
        result.plantOxygenPerFormulaUnit(),
        result.oxygenPerFormulaUnit().value(),
        ALLOWED_O_PER_CU,
        result::words);
  }

  @Test
  void aRehearsalTellsMarginsEnergyAndGas() {
    LoadedFiles files = Demo.copper();
    RehearsalResult result = rehearse(files, 4);
    assertEquals(4, result.margins().size(), result::words);
    for (RehearsalMeter.Margin margin : result.margins()) {
      assertTrue(margin.margin() > 0, result::words);
      assertTrue(margin.peak() <= margin.limit(), result::words);
    }
    assertEquals(result.peakTemperatureK(), result.margins().get(0).peak(), 1e-9);
    // About 110 W hold 290 °C; the oven was on for a day.
    assertTrue(result.heaterEnergyJ() > 3e6 && result.heaterEnergyJ() < 4e7, result::words);
    assertTrue(
        result.oxygenGasAdmittedMol() > files.recipe().oxygenNeededMol() * 0.9, result::words);
    RehearsalResult among = result.among(List.of(result, rehearse(files, 5)));
    assertEquals(2, among.spread().complete());
    assertTrue(among.spread().shortestSeconds() <= among.spread().longestSeconds());
    assertTrue(among.words().contains("on 2 benches"), among::words);
  }

  @Test
  void oneSeedGivesOneOutcome() {
    LoadedFiles files = Demo.copper();
    assertEquals(rehearse(files, 5).recordJson(), rehearse(files, 5).recordJson());
  }

  @Test
  void twoSeedsGiveTwoOutcomes() {
    LoadedFiles files = Demo.copper();
    assertTrue(!rehearse(files, 5).recordJson().equals(rehearse(files, 6).recordJson()));
  }
}
