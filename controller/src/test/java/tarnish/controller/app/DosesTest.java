package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tarnish.shared.rig.RigDescription;

class DosesTest {
  private static final String RIG = "../sim/demo/bench.rig.yaml";
  private static final double RISE_K = 5;

  /** The command {@code doses} prints the same for as many charges as one likes. */
  @Test
  void plannedPulsesAreFasterThanPulsesOfOneSizeThatWarmTheSampleAsMuch() {
    RigDescription rig = LoadedFiles.rig(RIG, LoadedFiles.text(Path.of(RIG)));
    StringWriter printed = new StringWriter();
    DosesCommand.Table table = new DosesCommand.Table(new PrintWriter(printed));
    for (long seed = 3; seed <= 4; seed++) {
      table.row(seed, new DoseTrial(rig, RISE_K, seed).run());
    }
    table.end();
    assertEquals(2, table.complete(), printed::toString);
    assertTrue(table.ratio(1) <= 0.7, printed::toString);
    assertTrue(table.peakK() <= RISE_K + 0.2, printed::toString);
  }
}
