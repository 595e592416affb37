package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.SqliteJournal;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.rig.RigDescription;

class VolumeFileTest {
  private static final String RIG =
      "vessel:\n  name: tube\n  hot volume: 250 mL ± 1.5 mL   # stated\n";

  @TempDir private Path folder;

  @Test
  void theNewestVolumeOfTheVesselTakesThePlaceOfTheStatedOne() {
    VolumeFile file = VolumeFile.in(folder);
    assertEquals(Optional.empty(), file.hotM3("tube"));
    assertEquals(RIG, file.applied(RIG, "tube"));
    file.add("tube", "2026-01-02T03:04:05Z", new Estimate(251e-6, 1e-6));
    file.add("other", "2026-01-03T03:04:05Z", new Estimate(99e-6, 1e-6));
    file.add("tube", "2026-01-04T03:04:05Z", new Estimate(248.5e-6, 0.4e-6));
    assertEquals(248.5e-6, file.hotM3("tube").orElseThrow().value(), 1e-12);
    assertEquals(
        "vessel:\n  name: tube\n  hot volume: 248.500 mL ± 0.400 mL   # stated\n",
        file.applied(RIG, "tube"));
  }

  @Test
  void aLineInDoubtIsRefusedByItsNumber() throws IOException {
    Files.writeString(folder.resolve("volumes.csv"), "head\ntube,2026-01-02T03:04:05Z,x,1e-6\n");
    CommandFailure failure =
        assertThrows(CommandFailure.class, () -> VolumeFile.in(folder).hotM3("tube"));
    assertTrue(failure.getMessage().contains(":2:"), failure.getMessage());
  }

  /** Nobody turns a tap on a simulated bench, so its pressures are refused and nothing is kept. */
  @Test
  void theGuideRefusesPressuresThatCannotBe() throws IOException {
    RigDescription rig = Demo.copper().rig();
    StringWriter said = new StringWriter();
    BenchTalk talk =
        new BenchTalk(
            new BufferedReader(new StringReader("100.0 mL ± 0.1 mL\n\n950.0 mbar ± 0.3 mbar\n\n")),
            new PrintWriter(said),
            false);
    LiveBench.Settings settings =
        new LiveBench.Settings(rig, Demo.copper().rigText(), Map.of(), 1, 40, false);
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("data"));
        LiveBench bench = LiveBench.start(settings, journal, "test")) {
      VolumeCalibration calibration = new VolumeCalibration(rig, bench, talk);
      assertThrows(CommandFailure.class, () -> calibration.run(folder));
    }
    assertTrue(said.toString().contains("Open the tap"), said.toString());
    assertTrue(Files.notExists(folder.resolve("volumes.csv")));
  }
}
