package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.shared.rig.RigDescription;

class FileCheckTest {
  private static final RigDescription BENCH =
      RigReader.read("bench.rig.yaml", DemoFiles.text("bench.rig.yaml")).value();

  private static FileCheck.Report check(String text) {
    return FileCheck.check("f", text, Optional.empty());
  }

  @Test
  void aGoodRecipeIsSummedUp() {
    String name = "copper-oxide.recipe.yaml";
    FileCheck.Report report = FileCheck.check(name, DemoFiles.text(name), Optional.of(BENCH));
    assertTrue(report.ok());
    assertEquals(
        List.of(
            "copper-oxide.recipe.yaml: good",
            "  recipe: Copper powder to copper(II) oxide (invented demonstration data)",
            "  charge: 4.000 g of Cu, which takes up 31.47 mmol of O2 to become CuO",
            "  steps: 22 if every repeat runs out",
            "  soaks: 6, 19 h in all",
            "  needs a person: First oxygen; Grind the cake under inert gas; Second oxygen;"
                + " Weigh the product",
            "  held against the limits of the rig 'Tube oven bench'"),
        report.lines());
  }

  @Test
  void aGoodRigIsSummedUp() {
    FileCheck.Report report = check(DemoFiles.text("bench.rig.yaml"));
    assertTrue(report.ok());
    assertEquals(
        List.of(
            "f: good",
            "  rig: Tube oven bench (invented demonstration data), simulated",
            "  vessel: quartz tube A, fused quartz, 250 mL hot, 80 mL cold",
            "  gases: bottle (99.5 % oxygen), argon",
            "  a weighing is known to: 1 mg, handling included",
            "  limits attended: sample 600 °C, oven 700 °C, seal 160 °C, pressure 1100 mbar,"
                + " ramp 10 K/min, pulse 40 mbar",
            "  limits unattended: sample 560 °C, oven 650 °C, seal 140 °C, pressure 1060 mbar,"
                + " ramp 6 K/min, pulse 20 mbar",
            "  sensors: sample temperature, oven temperature, seal temperature, room temperature,"
                + " vessel pressure, oxygen supply pressure, room pressure, room oxygen,"
                + " emergency stop circuit, oven door"),
        report.lines());
  }

  @Test
  void aRecipeWithoutARigSaysThatItsLimitsAreUnchecked() {
    FileCheck.Report report = check(DemoFiles.text("copper-oxide.recipe.yaml"));
    assertTrue(
        report
            .lines()
            .contains("  not held against a rig: give a rig file to check its limits too"));
  }

  @Test
  void aFileOfNeitherKindIsToldByItsFirstKey() {
    FileCheck.Report report = check("recepi: a\n");
    assertFalse(report.ok());
    assertEquals(
        List.of(
            "f:1:1: found 'recepi' as the first key, expected 'recipe' or 'rig', which says what"
                + " the file is; did you mean 'recipe'?"),
        report.lines());
    assertEquals(
        List.of("f:1:1: found a list, expected a file that begins with 'recipe:' or 'rig:'"),
        check("[1, 2]").lines());
  }

  @Test
  void aFaultyFileGivesOneLineForEachFault() {
    FileCheck.Report report = check("rig: A\ntick: 1\n");
    assertFalse(report.ok());
    assertTrue(
        report
            .lines()
            .contains(
                "f:2:7: found '1' without a unit, expected a time in ms, s, min, h or d, e.g."
                    + " 1 h 30 min"));
    assertTrue(report.lines().size() > 10);
  }
}
