package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.rig.RigDescription;

/** The notes on hardware say of the program what the program does. */
class HardwareNotesTest {
  private static final Path NOTES = Path.of("../hardware-notes");
  private static final String RIG = "reference-bench.rig.yaml";

  private static String text(String name) throws IOException {
    return Files.readString(NOTES.resolve(name));
  }

  /** As its head says how: on devices, without the barometer that the program has no driver for. */
  private static String wired() throws IOException {
    return text(RIG)
        .replace("connection: simulated", "connection: devices")
        .replaceFirst("\n  room pressure:[^\n]*(\n    [^\n]*)*", "");
  }

  private static RigDescription rig() throws IOException {
    return RigReader.readFile(RIG, wired()).value().rig();
  }

  /** As it stands, simulated, and as it is used on the bench of the drawings. */
  @Test
  void theRigFilePassesItsCheckBothWays() throws IOException {
    for (String text : List.of(text(RIG), wired())) {
      FileCheck.Report check = FileCheck.check(RIG, text, Optional.empty());
      assertTrue(check.ok(), () -> String.join("\n", check.lines()));
    }
  }

  @Test
  void everyRowNamedInFrontOfAHardWiredLimitIsInTheInterlockTable() throws IOException {
    List<String> named = new ArrayList<>();
    Pattern quoted = Pattern.compile("`([^`]+)`");
    for (String line : text("hard-wired-limits.md").lines().toList()) {
      if (line.matches("\\| [0-9]+ \\|.*")) {
        String[] cells = line.split("\\|");
        Matcher names = quoted.matcher(cells[cells.length - 1]);
        while (names.find()) {
          named.add(names.group(1));
        }
      }
    }
    assertTrue(named.size() > 20, named.toString());
    List<String> table = InterlockTable.names(rig());
    List<String> unknown = named.stream().filter(name -> !table.contains(name)).toList();
    assertEquals(List.of(), unknown);
  }

  @Test
  void noRowIsMarkedAsMissingAnyMore() throws IOException {
    assertFalse(text("hard-wired-limits.md").matches("(?s).*[a-z]\\*(;| \\|).*"));
  }

  @Test
  void everyTagOfTheRigFilesWiringStandsInTheDrawing() throws IOException {
    String drawing = text("signals.svg");
    for (String tag : List.of("TE1", "TE2", "TE3", "TE4", "TE5", "PT1", "PT2", "PT3", "AT1")) {
      assertTrue(drawing.contains(tag), tag);
    }
    for (int i = 1; i <= 7; i++) {
      assertTrue(drawing.contains("OUT" + i), "OUT" + i);
    }
  }

  /** A part that is in two drawings is one part. */
  @Test
  void noFuseHasTheTagOfAFilter() throws IOException {
    Pattern tag = Pattern.compile("class=\"tag\"[^>]*>(F[A-Z]?[0-9])<");
    List<String> inGas = tag.matcher(text("gas-line.svg")).results().map(r -> r.group(1)).toList();
    List<String> inPower =
        tag.matcher(text("power-and-safety-chain.svg")).results().map(r -> r.group(1)).toList();
    assertEquals(3, inGas.size(), inGas.toString());
    assertTrue(inPower.size() > 3, inPower.toString());
    assertTrue(inGas.stream().noneMatch(inPower::contains), inGas + " and " + inPower);
  }
}
