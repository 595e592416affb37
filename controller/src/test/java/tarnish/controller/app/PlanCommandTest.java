package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlanCommandTest {
  private static final List<String> FILES =
      List.of(
          "bench.rig.yaml",
          "catalyst.rig.yaml",
          "copper-oxide.recipe.yaml",
          "copper-oxide-two-weeks.recipe.yaml",
          "barium-peroxide.recipe.yaml",
          "catalyst-passivation.recipe.yaml");

  @TempDir Path folder;

  private record Outcome(int status, String out, String errors) {}

  @BeforeEach
  void copyTheDemonstrationFiles() throws IOException {
    for (String name : FILES) {
      try (InputStream in = PlanCommandTest.class.getResourceAsStream("/demo/" + name)) {
        Files.copy(in, folder.resolve(name));
      }
    }
  }

  private Outcome plan(String recipe, String rig, String... more) {
    List<String> arguments = new java.util.ArrayList<>(List.of("plan", file(recipe)));
    arguments.addAll(List.of("--rig", file(rig)));
    arguments.addAll(List.of(more));
    return run(arguments.toArray(String[]::new));
  }

  private String file(String name) {
    return folder.resolve(name).toString();
  }

  private static Outcome run(String... arguments) {
    PrintStream standardOut = System.out;
    PrintStream standardErrors = System.err;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream errors = new ByteArrayOutputStream();
    System.setOut(new PrintStream(out, true, StandardCharsets.UTF_8));
    System.setErr(new PrintStream(errors, true, StandardCharsets.UTF_8));
    try {
      int status = Main.run(arguments);
      return new Outcome(
          status, out.toString(StandardCharsets.UTF_8), errors.toString(StandardCharsets.UTF_8));
    } finally {
      System.setOut(standardOut);
      System.setErr(standardErrors);
    }
  }

  @Test
  void theCopperDemonstrationIsPlannedWithoutWarnings() {
    Outcome outcome = plan("copper-oxide.recipe.yaml", "bench.rig.yaml");
    assertEquals(0, outcome.status(), outcome.errors());
    assertTrue(outcome.out().startsWith("plan: Copper powder to copper(II) oxide on Tube oven"));
    assertTrue(outcome.out().contains("(invented demonstration data)"));
    assertTrue(outcome.out().contains("(31.4733 ± 0.0080) mmol"), outcome.out());
    assertTrue(outcome.out().contains("warnings: 0, open questions: 2."), outcome.out());
  }

  @Test
  void theColumnsStandUnderEachOther() {
    List<String> lines =
        plan("copper-oxide.recipe.yaml", "bench.rig.yaml").out().lines().skip(2).toList();
    int column = lines.get(0).indexOf("charge mass");
    assertTrue(column > 0);
    for (String line : lines.subList(0, lines.size() - 2)) {
      assertEquals("  ", line.substring(column - 2, column), line);
      assertFalse(Character.isWhitespace(line.charAt(column)), line);
    }
  }

  @Test
  void jsonHoldsTheSameSheetInSiUnits() throws IOException {
    Outcome outcome = plan("copper-oxide.recipe.yaml", "bench.rig.yaml", "--json");
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
    for (String recipe : FILES.subList(2, FILES.size())) {
      String rig = recipe.startsWith("catalyst") ? "catalyst.rig.yaml" : "bench.rig.yaml";
      Outcome outcome = plan(recipe, rig);
      assertEquals(0, outcome.status(), outcome.errors());
    }
  }

  @Test
  void aFaultyRecipeIsRefusedWithItsFaults() throws IOException {
    Path recipe = folder.resolve("copper-oxide.recipe.yaml");
    String text = Files.readString(recipe);
    Files.writeString(recipe, text.replace("pulse: 15 mbar", "pulse: 15"));
    Outcome outcome = plan("copper-oxide.recipe.yaml", "bench.rig.yaml");
    assertEquals(1, outcome.status());
    assertEquals("", outcome.out());
    assertTrue(outcome.errors().contains("'15' without a unit"), outcome.errors());
    assertEquals(1, plan("missing.recipe.yaml", "bench.rig.yaml").status());
  }

  @Test
  void aPlanWithoutARigIsWrongUsage() {
    assertEquals(2, run("plan", file("copper-oxide.recipe.yaml")).status());
    assertEquals(2, run("plan").status());
  }
}
