package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RigReader;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.rig.RigDescription;

class OvensTest {
  private static final String RIG = "../sim/demo/bench.rig.yaml";

  /** The command {@code ovens} prints the same for as many ovens as one likes. */
  @Test
  void aFewVeryDifferentOvensAreIdentifiedAndRegulated() {
    RigDescription rig = LoadedFiles.rig(RIG, LoadedFiles.text(Path.of(RIG)));
    StringWriter printed = new StringWriter();
    OvensCommand.Table table = new OvensCommand.Table(new PrintWriter(printed));
    for (long seed = 1; seed <= 5; seed++) {
      OvenTrial trial = new OvenTrial(rig, seed);
      table.row(seed, trial);
      if (seed == 1) {
        table.optimum(seed, new OvenOptimum(trial).find());
      }
    }
    table.end();
    assertTrue(table.percentile(OvenTrial.Course::overshootK, 1) <= 1, printed::toString);
    assertTrue(table.percentile(OvenTrial.Course::soakSpreadK, 1) <= 0.3, printed::toString);
    assertTrue(table.percentile(OvenTrial.Course::lagK, 1) <= 2, printed::toString);
    assertEquals(5, table.recovered(), printed::toString);
    assertTrue(table.errorRatio() <= 0.6, printed::toString);
    assertTrue(table.toOptimum() <= 1.3, printed::toString);
  }

  @Test
  void identifyWritesARigFileThatTheReaderAcceptsAndAPlot(@TempDir Path folder) throws Exception {
    Path out = folder.resolve("known.rig.yaml");
    Ran ran =
        Ran.run("identify", "--rig", RIG, "--seed", "3", "--top", "350", "--out", out.toString());
    assertEquals(0, ran.status(), ran.errors());
    assertTrue(ran.out().contains("The model fits."), ran.out());
    ReadResult<RigDescription> read = RigReader.read("known", Files.readString(out));
    assertTrue(read.isGood(), () -> read.faults().toString());
    Optional<IdentifiedOven> model = read.value().regulation().model();
    assertEquals("quartz tube A", model.orElseThrow().vesselName());
    assertEquals(0.7, model.get().model().heatingKPerS(), 0.1);
    assertTrue(model.get().standardUncertainty()[0] > 0);
    assertTrue(Files.readString(folder.resolve("known.oven.svg")).contains("<polyline"));

    Ran again =
        Ran.run("identify", "--rig", out.toString(), "--top", "350", "--out", out.toString());
    assertEquals(0, again.status(), again.errors());
    String text = Files.readString(out);
    assertEquals(
        text.indexOf("oven model:"), text.lastIndexOf("oven model:"), "replaced, not doubled");
  }

  @Test
  void identifyRefusesATemperatureNearTheLimits() {
    Ran ran = Ran.run("identify", "--rig", RIG, "--top", "555");
    assertEquals(1, ran.status());
    assertTrue(ran.errors().contains("40 K below"), ran.errors());
  }
}
