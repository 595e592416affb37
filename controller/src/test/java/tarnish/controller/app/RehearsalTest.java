package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.rig.Limits;

class RehearsalTest {
  private static final double ALLOWED_O_PER_CU = 0.05;

  private static final LoadedFiles COPPER = Demo.copper();

  /** A seed gives one outcome, so several tests look at the same ones. */
  private static final Map<Long, RehearsalResult> OF_COPPER = new HashMap<>();

  private static RehearsalResult rehearse(LoadedFiles files, long seed) {
    return new Rehearsal(files, seed, Optional.empty()).run();
  }

  private static RehearsalResult copper(long seed) {
    return OF_COPPER.computeIfAbsent(seed, each -> rehearse(COPPER, each));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void theCopperBatchEndsCompleteWithinItsLimitsAndKnowsWhatItHolds(long seed) {
    RehearsalResult result = copper(seed);

    assertTrue(result.isComplete(), result::words);
    assertEquals(0, result.trips(), result::words);
    assertEquals(0, result.alarms(), result::words);
    Limits limits = COPPER.rig().attended();
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
    for (long seed = 1; seed <= 20; seed++) {
      RehearsalResult result = copper(seed);
      double plantMol = result.plantOxygenPerFormulaUnit() * COPPER.recipe().chargeMol() / 2;
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
    RehearsalResult result = copper(4);
    assertEquals(4, result.margins().size(), result::words);
    for (RehearsalMeter.Margin margin : result.margins()) {
      assertTrue(margin.margin() > 0, result::words);
      assertTrue(margin.peak() <= margin.limit(), result::words);
    }
    assertEquals(result.peakTemperatureK(), result.margins().get(0).peak(), 1e-9);
    // About 110 W hold 290 °C; the oven was on for a day.
    assertTrue(result.heaterEnergyJ() > 3e6 && result.heaterEnergyJ() < 4e7, result::words);
    assertTrue(
        result.oxygenGasAdmittedMol() > COPPER.recipe().oxygenNeededMol() * 0.9, result::words);
    RehearsalResult among = result.among(List.of(result, copper(5)));
    assertEquals(2, among.spread().complete());
    assertTrue(among.spread().shortestSeconds() <= among.spread().longestSeconds());
    assertTrue(among.words().contains("on 2 benches"), among::words);
  }

  @Test
  void oneSeedGivesOneOutcome() {
    assertEquals(copper(5).recordJson(), rehearse(Demo.copper(), 5).recordJson());
  }

  @Test
  void twoSeedsGiveTwoOutcomes() {
    assertTrue(!copper(5).recordJson().equals(copper(6).recordJson()));
  }
}
