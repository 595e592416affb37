package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The short version of the damaged files in {@code .ci/crashes}. */
class DamagedFilesTest {
  private static final int EACH = 12;

  @Test
  void controlGoesOnWhateverBecameOfTheFilesAndNothingIsReadThatWasNotWritten(@TempDir Path folder)
      throws Exception {
    DamagedFiles files = new DamagedFiles(folder, Long.getLong("seed", 11));
    int found = 0;
    for (DamagedFiles.Damage damage : DamagedFiles.Damage.values()) {
      Map<DamagedFiles.Outcome, Integer> counts = files.run(damage, EACH);
      System.out.println(damage.words() + ": " + counts);
      assertTrue(DamagedFiles.isClean(counts), () -> damage + " " + counts);
      assertEquals(EACH, counts.values().stream().mapToInt(it -> it).sum());
      found += EACH - counts.getOrDefault(DamagedFiles.Outcome.ALL_THERE, 0);
    }
    assertTrue(found > EACH, "hardly anything was damaged: " + found);
  }
}
