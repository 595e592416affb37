package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The short version of {@code .ci/crashes}. */
class CrashesIT {
  private static final int KILLS = 5;

  @Test
  void aServiceKilledAtRandomMomentsLosesNothingAndComesBackHeld(@TempDir Path folder)
      throws Exception {
    Crashes.Tally tally =
        new Crashes(folder, Long.getLong("seed", 7), Packaged.OPTIONS).run(KILLS, 10);
    System.out.print(tally.words());
    assertEquals(KILLS, tally.kills());
    assertTrue(tally.eventsSeen > 0);
    assertTrue(tally.isClean(), tally::words);
  }
}
