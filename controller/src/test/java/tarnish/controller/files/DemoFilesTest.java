package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.controller.devices.setup.DeviceSetup;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

class DemoFilesTest {
  private static RigDescription rig(String name) {
    ReadResult<RigDescription> result = RigReader.read(name, DemoFiles.text(name));
    assertEquals(List.of(), result.faults());
    return result.value();
  }

  private static Recipe recipe(String name, RigDescription rig) {
    ReadResult<Recipe> result = RecipeReader.read(name, DemoFiles.text(name), Optional.of(rig));
    assertEquals(List.of(), result.faults());
    return result.value();
  }

  @Test
  void everyRecipeFitsItsRigAndSaysThatItIsInvented() {
    for (String name : DemoFiles.BENCH_RECIPES) {
      assertTrue(recipe(name, rig("bench.rig.yaml")).invented(), name);
    }
    RigDescription catalyst = rig("catalyst.rig.yaml");
    assertTrue(recipe(DemoFiles.CATALYST_RECIPE, catalyst).invented());
    assertTrue(catalyst.invented());
  }

  @Test
  void theTrialOfTheWiresFitsTheInstruments() {
    RigFile file = RigReader.readFile("rig", DemoFiles.text("instruments.rig.yaml")).value();
    assertTrue(recipe("instruments-short.recipe.yaml", file.rig()).invented());
    assertEquals(RigDescription.Connection.DEVICES, file.rig().connection());
    assertEquals(2, file.devices().orElseThrow().devices().size());
    assertEquals(10, file.devices().orElseThrow().sources().size());
  }

  @Test
  void theRigFileOfTheReferenceBenchNamesAllItsWiresButTheBarometers() throws IOException {
    Path path = Path.of("../hardware-notes/reference-bench.rig.yaml");
    ReadResult<RigFile> read = RigReader.readFile(path.toString(), Files.readString(path));
    assertEquals(List.of(), read.faults());
    DeviceSetup setup = read.value().devices().orElseThrow();
    assertEquals(read.value().rig().sensors().size() - 1, setup.sources().size());
    assertEquals(Switch.values().length, setup.sinks().size());
    // With its barometer left out, it is a bench that can be run.
    String real =
        Files.readString(path)
            .replace("connection: simulated", "connection: devices")
            .replaceFirst("(?s)  room pressure:  .*?(?=  room oxygen:)", "");
    assertEquals(List.of(), RigReader.readFile("real", real).faults());
  }

  @Test
  void theCopperRecipeHoldsWhatTheStoryNeeds() {
    Recipe recipe = recipe("copper-oxide.recipe.yaml", rig("bench.rig.yaml"));
    assertEquals(0.004, recipe.charge().massKg());
    assertEquals(1e-6, recipe.charge().massStandardUncertaintyKg());
    assertEquals(
        List.of(0.0, 0.5, 1.0), recipe.series().stream().map(OxideMember::oxygenPerUnit).toList());
    // 4 g / 63.546 g/mol / 2
    assertEquals(0.031473, recipe.oxygenNeededMol(), 1e-6);
    assertEquals(-312_000, recipe.reactionEnthalpyJPerMolO2().getAsDouble());
    assertEquals(List.of(new Recipe.RehearsedPause(25 * 3600, 90 * 60)), recipe.rehearsal());
    assertEquals(6, StepCount.soaks(recipe.steps()));
    assertEquals(19 * 3600, StepCount.soakS(recipe.steps()));
  }

  @Test
  void theLongCopperRecipeSoaksForTwelveOfItsFourteenDays() {
    Recipe recipe = recipe("copper-oxide-two-weeks.recipe.yaml", rig("bench.rig.yaml"));
    assertEquals((12 + 24 + 36 + 48 + 3 * 55) * 3600.0, StepCount.soakS(recipe.steps()));
  }

  @Test
  void valuesArriveInSiUnits() {
    Recipe recipe = recipe("copper-oxide.recipe.yaml", rig("bench.rig.yaml"));
    Step.Dose dose = (Step.Dose) recipe.steps().get(3);
    assertEquals(1_500, dose.pulsePa());
    assertEquals(55_000, dose.toPa());
    assertEquals(200, dose.pulsesMax());
    assertEquals(0.5, dose.heatSettledK());
    assertEquals(0.5, dose.uptakeSlowedPaPerS());
    assertEquals(60, dose.waitMinS());
    assertEquals(1_800, dose.waitMaxS());
    Step.Ramp ramp = (Step.Ramp) recipe.steps().get(4);
    assertEquals(373.15, ramp.toK());
    assertEquals(0.05, ramp.rateKPerS());
    assertEquals(60_000, ramp.common().holdPressurePa().getAsDouble());
    RigDescription rig = rig("bench.rig.yaml");
    assertEquals(250, rig.tickMillis());
    assertEquals(2.2e-11, rig.oxygen().sonicConductance());
    assertEquals(3e-4, rig.pumpSpeedM3PerS());
    assertEquals(250e-6, rig.vessel().volume().hotM3());
    assertEquals(
        0.001, rig.sensor(Channel.VESSEL_PRESSURE).orElseThrow().gainStandardUncertainty());
    assertEquals(10, rig.sensor(Channel.VESSEL_PRESSURE).orElseThrow().resolution());
    assertEquals(1373.15, rig.sensor(Channel.SAMPLE_TEMPERATURE).orElseThrow().rangeMax());
  }

  @Test
  void onlyWhatNeedsAPersonAsksForOne() {
    Recipe recipe = recipe("copper-oxide.recipe.yaml", rig("bench.rig.yaml"));
    List<String> attended =
        recipe.steps().stream()
            .filter(step -> step.common().presence() == Presence.ATTENDED)
            .map(Step::kind)
            .toList();
    assertEquals(List.of("dose", "open", "dose", "ask"), attended);
  }

  @Test
  void inTheCatalystRecipeOnlyTheFirstLeanOxygenNeedsAPerson() {
    Recipe recipe = recipe(DemoFiles.CATALYST_RECIPE, rig("catalyst.rig.yaml"));
    Step.Repeat repeat = (Step.Repeat) recipe.steps().get(7);
    assertEquals(Presence.ATTENDED, recipe.steps().get(4).common().presence());
    assertEquals(Presence.UNATTENDED, repeat.steps().get(0).common().presence());
    assertEquals(new RepeatUntil.PassUptakeBelow(2e-5), repeat.until());
  }

  @Test
  void stepsWithoutATitleOrTimeLimitGetSensibleOnes() {
    Recipe recipe = recipe("copper-oxide.recipe.yaml", rig("bench.rig.yaml"));
    assertEquals("Purge with inert gas", recipe.steps().get(0).common().title());
    assertEquals("Evacuate to 1 mbar", recipe.steps().get(1).common().title());
    assertEquals(1_200, recipe.steps().get(1).common().timeLimitS().getAsDouble());
    assertEquals("Soak at 100 °C for 1 h", recipe.steps().get(5).common().title());
    assertEquals(6 * 3600, recipe.steps().get(5).common().timeLimitS().getAsDouble());
  }
}
