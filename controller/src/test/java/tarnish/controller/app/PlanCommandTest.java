package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlanCommandTest {
  @TempDir private Path folder;

  private static Ran plan(Path recipe, Path rig, String... more) {
    List<String> arguments =
        new ArrayList<>(List.of("plan", recipe.toString(), "--rig", rig.toString()));
    arguments.addAll(List.of(more));
    return Ran.run(arguments.toArray());
  }

  @Test
  void theCopperDemonstrationIsPlannedWithoutWarnings() {
    Ran outcome = plan(Demo.COPPER, Demo.RIG);
    assertEquals(0, outcome.status(), outcome.errors());
    assertTrue(outcome.out().startsWith("plan: Copper powder to copper(II) oxide on Tube oven"));
    assertTrue(outcome.out().contains("(invented demonstration data)"));
    assertTrue(outcome.out().contains("(31.4733 ± 0.0080) mmol"), outcome.out());
    assertTrue(outcome.out().contains("warnings: 0, open questions: 2."), outcome.out());
  }

  @Test
  void theColumnsStandUnderEachOther() {
    List<String> lines = plan(Demo.COPPER, Demo.RIG).out().lines().skip(2).toList();
    int column = lines.get(0).indexOf("charge mass");
    assertTrue(column > 0);
    for (String line : lines.subList(0, lines.size() - 2)) {
      assertEquals("  ", line.substring(column - 2, column), line);
      assertFalse(Character.isWhitespace(line.charAt(column)), line);
    }
  }

  @Test
  void jsonHoldsTheSameSheetInSiUnits() throws IOException {
    Ran outcome = plan(Demo.COPPER, Demo.RIG, "--json");
    assertEquals(0, outcome.status(), outcome.errors());
    JsonNode sheet = new ObjectMapper().readTree(outcome.out());
    assertTrue(sheet.get("invented").booleanValue());
    JsonNode first = sheet.get("lines").get(0);
    assertEquals("ok", first.get("verdict").textValue());
    assertEquals("mol", first.get("unit").textValue());
    assertEquals(0.0314733, first.get("value").doubleValue(), 1e-7);
  }

  @Test
  void everyDemonstrationRecipeCanBePlanned() {
    assertEquals(0, plan(Demo.BARIUM, Demo.RIG).status());
    Ran lean = plan(Demo.CATALYST, Demo.CATALYST_RIG);
    assertEquals(0, lean.status(), lean.errors());
    // 95 % of the lean mix stays behind: 17.04 mmol × 19 in 8.85 mmol of gas.
    assertTrue(lean.out().contains("37 vessel fills"), lean.out());
  }

  @Test
  void aFaultyRecipeIsRefusedWithItsFaults() throws IOException {
    Path recipe = folder.resolve("faulty.recipe.yaml");
    String text = Files.readString(Demo.COPPER);
    Files.writeString(recipe, text.replace("pulse: 15 mbar", "pulse: 15"));
    Ran outcome = plan(recipe, Demo.RIG);
    assertEquals(1, outcome.status());
    assertEquals("", outcome.out());
    assertTrue(outcome.errors().contains("'15' without a unit"), outcome.errors());
    assertEquals(1, plan(folder.resolve("missing"), Demo.RIG).status());
  }

  @Test
  void aPlanWithoutARigIsWrongUsage() {
    assertEquals(2, Ran.run("plan", Demo.COPPER.toString()).status());
    assertEquals(2, Ran.run("plan").status());
  }
}
