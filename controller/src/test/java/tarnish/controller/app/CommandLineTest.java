package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CommandLineTest {
  @TempDir private Path folder;

  private static Ran rehearse(Path data, long seed) {
    Ran ran = Ran.run("rehearse", Demo.COPPER, "--rig", Demo.RIG, "--seed", seed, "--data", data);
    assertEquals(0, ran.status(), ran.errors());
    return ran;
  }

  /** The library complains on the error stream of a description that it cannot format. */
  @Test
  void everyCommandDescribesItselfWithoutAWarning() {
    java.io.PrintStream before = System.err;
    java.io.ByteArrayOutputStream complaints = new java.io.ByteArrayOutputStream();
    System.setErr(new java.io.PrintStream(complaints, true));
    try {
      for (String command : Main.commands()) {
        if (command.equals("warm-up")) {
          continue; // is for the installer and has no help
        }
        Ran ran = Ran.run(command, "--help");
        assertEquals(0, ran.status(), command);
        assertFalse(ran.out().contains("%%"), ran.out());
      }
    } finally {
      System.setErr(before);
    }
    assertEquals("", complaints.toString());
    assertTrue(
        Ran.run("coverage", "--help").out().replaceAll("\\s+", " ").contains("95 % intervals"));
  }

  @Test
  void aMagneticSheetIsPrintedFilledInAndWorkedOut() throws IOException {
    Ran blank = Ran.run("magnetic", "--blank");
    Path sheet = folder.resolve("sheet.txt");
    Files.writeString(sheet, blank.out());
    Ran result = Ran.run("magnetic", sheet);
    assertEquals(0, result.status(), result.errors());
    assertTrue(result.out().contains("Bohr magnetons"), result.out());
    Files.writeString(sheet, "sample mess: 1 g ± 1 mg\n");
    Ran wrong = Ran.run("magnetic", sheet);
    assertEquals(1, wrong.status());
    assertTrue(wrong.errors().contains(":1: found 'sample mess"), wrong.errors());
  }

  @Test
  void rehearseWithJsonPrintsOneObjectWithEverythingPromised() throws IOException {
    Ran ran = Ran.run("rehearse", Demo.COPPER, "--rig", Demo.RIG, "--seed", 2, "--json");
    assertEquals(0, ran.status());
    JsonNode json = new ObjectMapper().readTree(ran.out());
    for (String name :
        List.of(
            "endState",
            "simulatedSeconds",
            "wallSeconds",
            "realTimeRatio",
            "peakTemperatureK",
            "peakPressurePa",
            "doses",
            "soaks",
            "oxygenUptakeMol",
            "oxygenPerFormulaUnit",
            "plantOxygenPerFormulaUnit",
            "alarms",
            "trips")) {
      assertTrue(json.has(name), name);
    }
    assertEquals("complete", json.get("endState").asText());
    assertTrue(json.get("oxygenUptakeMol").get("standardUncertainty").asDouble() > 0);
    assertTrue(json.get("soaks").get(0).get("setpointK").asDouble() > 300);
    assertTrue(json.get("soaks").get(0).get("inBandSeconds").asDouble() >= 3600);
  }

  @Test
  void twoRehearsalsOfOneSeedExportTheSameBytesAndReplayCleanly() {
    rehearse(folder.resolve("a"), 7);
    rehearse(folder.resolve("b"), 7);
    Ran first = Ran.run("export", 1, "--data", folder.resolve("a"));
    Ran second = Ran.run("export", 1, "--data", folder.resolve("b"));
    assertEquals(0, first.status());
    assertTrue(first.out().contains("sample temperature [°C]"));
    assertTrue(first.out().lines().count() > 100_000);
    assertEquals(first.out(), second.out());
    Ran firstEvents = Ran.run("export", 1, "--events", "--data", folder.resolve("a"));
    assertEquals(
        firstEvents.out(), Ran.run("export", 1, "--events", "--data", folder.resolve("b")).out());
    assertTrue(firstEvents.out().contains("Oxygen pulse 1"));
    for (String data : List.of("a", "b")) {
      Ran replay = Ran.run("replay", 1, "--data", folder.resolve(data));
      assertEquals(0, replay.status(), replay.errors());
      assertTrue(replay.out().contains("no difference"));
    }
  }

  @Test
  void replayTellsTheFirstDifferenceOfAChangedRecord() throws Exception {
    rehearse(folder, 3);
    try (Connection db =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("tarnish.db"));
        Statement statement = db.createStatement()) {
      statement.execute(
          "UPDATE event SET sum = NULL, sentence = 'Leak test passed: nobody looked'"
              + " WHERE sentence LIKE 'Leak test passed%'");
    }
    Ran replay = Ran.run("replay", 1, "--data", folder);
    assertEquals(1, replay.status());
    assertTrue(replay.errors().startsWith("First difference at "), replay.errors());
    assertTrue(replay.errors().contains("nobody looked"), replay.errors());
    assertEquals("", replay.out());
  }

  @Test
  void checkSaysWhatIsWrongOnStandardErrorAndNothingElse() throws IOException {
    Path recipe = folder.resolve("broken.recipe.yaml");
    String text = Files.readString(Demo.COPPER).replace("rate: 3 K/min", "rate: 3");
    Files.writeString(recipe, text.replace("- evacuate:", "- evacuat:"));
    Ran ran = Ran.run("check", recipe, "--rig", Demo.RIG);
    assertEquals(1, ran.status());
    assertEquals("", ran.out());
    assertTrue(ran.errors().contains("did you mean 'evacuate'?"), ran.errors());
    assertTrue(ran.errors().lines().filter(line -> line.contains("found '3'")).count() >= 2);
  }

  @Test
  void aBrokenRecipeIsNotRehearsedAndLeavesNoRecord() throws IOException {
    Path recipe = folder.resolve("broken.recipe.yaml");
    Files.writeString(recipe, Files.readString(Demo.COPPER).replace("at: 290 °C", "at: 2900 °C"));
    Path data = folder.resolve("data");
    Ran ran = Ran.run("rehearse", recipe, "--rig", Demo.RIG, "--data", data);
    assertEquals(1, ran.status());
    assertTrue(ran.errors().contains("2900 °C"), ran.errors());
    assertFalse(Files.exists(data));
  }

  @ParameterizedTest
  @ValueSource(strings = {"empty", "binary", "long", "missing"})
  void filesThatAreNoRecipesAreRefusedWithASentence(String kind) throws IOException {
    Path file = folder.resolve(kind);
    switch (kind) {
      case "empty" -> Files.writeString(file, "");
      case "binary" -> Files.write(file, new byte[] {0, 1, 2, (byte) 0xff, (byte) 0xfe});
      case "long" -> Files.write(file, new byte[10_000_000]);
      default -> {
        // It does not exist.
      }
    }
    for (Ran ran : List.of(Ran.run("check", file), Ran.run("rehearse", file, "--rig", Demo.RIG))) {
      assertEquals(1, ran.status());
      assertEquals("", ran.out());
      assertTrue(ran.errors().contains(kind), ran.errors());
      assertFalse(ran.errors().contains("Exception"), ran.errors());
    }
  }

  @Test
  void anUnknownBatchOrFolderIsRefused() {
    rehearse(folder, 1);
    Ran noBatch = Ran.run("export", 9, "--data", folder);
    assertEquals(1, noBatch.status());
    assertTrue(noBatch.errors().startsWith("There is no batch 9 in "));
    Ran noFolder = Ran.run("replay", 1, "--data", folder.resolve("nowhere"));
    assertEquals(1, noFolder.status());
    assertTrue(noFolder.errors().startsWith("There is no folder "));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "demo", "serve", "rehearse", "check", "export", "replay"})
  void everyCommandHasHelp(String command) {
    Ran ran = command.isEmpty() ? Ran.run("--help") : Ran.run(command, "--help");
    assertEquals(0, ran.status());
    assertTrue(ran.out().contains("Usage: tarnish"), ran.out());
  }

  @Test
  void wrongUsageHasStatusTwo() {
    assertEquals(2, Ran.run().status());
    assertEquals(2, Ran.run("bake").status());
    assertEquals(2, Ran.run("rehearse").status());
    assertEquals(2, Ran.run("export", "one", "--data", "x").status());
    assertEquals(2, Ran.run("rehearse", Demo.COPPER, "--rig", Demo.RIG, "--seed", "x").status());
  }
}
