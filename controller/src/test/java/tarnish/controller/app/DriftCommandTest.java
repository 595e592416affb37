package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command on records that a whole batch left, each on the bench drawn with seed 1. */
class DriftCommandTest {
  @TempDir private Path folder;

  private Ran driftAfterBatch(Path rig, Path recipe, Path adapted) {
    Path data = folder.resolve("data-" + rig.getFileName());
    Ran batch = Ran.run("rehearse", recipe, "--rig", rig, "--seed", 1, "--data", data);
    assertEquals(0, batch.status(), batch.errors());
    return Ran.run("drift", "--data", data, "--out", adapted, 1);
  }

  private static double heatingKPerS(String rigText) {
    return LoadedFiles.rig("test", rigText)
        .regulation()
        .model()
        .orElseThrow()
        .model()
        .heatingKPerS();
  }

  /** The same bench with a heater of 85 % of the power that its model was identified with. */
  @Test
  void anAgedElementIsFoundInTheRecordAndTheModelWrittenHasItsPower() throws IOException {
    String fresh = Files.readString(Demo.RIG);
    assertTrue(fresh.contains("power: 800 W"));
    Path aged = folder.resolve("aged.rig.yaml");
    Files.writeString(aged, fresh.replace("power: 800 W", "power: 680 W"));
    Path adapted = folder.resolve("adapted.rig.yaml");

    Ran drift = driftAfterBatch(aged, Demo.COPPER, adapted);

    assertEquals(0, drift.status(), drift.errors());
    assertTrue(drift.out().contains("The heater gives 8"), drift.out());
    assertFalse(drift.out().contains("loses"), drift.out());
    assertTrue(drift.out().contains("was written to " + adapted), drift.out());
    double share = heatingKPerS(Files.readString(adapted)) / heatingKPerS(fresh);
    assertEquals(0.85, share, 0.03);
  }

  @Test
  void anOvenAsIdentifiedIsSaidToBeSoAndNothingIsWritten() {
    Path adapted = folder.resolve("adapted.rig.yaml");

    Ran drift = driftAfterBatch(Demo.RIG, Demo.COPPER, adapted);

    assertEquals(0, drift.status(), drift.errors());
    assertTrue(drift.out().contains("The oven is what it was identified as."), drift.out());
    assertTrue(drift.out().contains("nothing to adapt"), drift.out());
    assertFalse(Files.exists(adapted));
  }

  @Test
  void aBatchOfMinutesSaysThatItIsTooShortToAdaptAModelBy() {
    Path recipe = Demo.COPPER.resolveSibling("instruments-short.recipe.yaml");

    Ran drift = driftAfterBatch(Demo.RIG, recipe, folder.resolve("adapted.rig.yaml"));

    assertEquals(1, drift.status());
    assertTrue(drift.out().contains("too little was seen of the oven"), drift.out());
    assertTrue(drift.errors().contains("too short to adapt the model"), drift.errors());
  }
}
