package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JournalSizeTest {
  @TempDir Path folder;

  private static final int HOURS = 6;
  private static final long MOST_BYTES_A_DAY = 3_000_000;

  @Test
  void aDayOfTwelveNoisyChannelsTakesLessThanThreeMegabytes() throws IOException {
    int ticks = HOURS * 4 * 3600;
    try (SqliteJournal journal = SqliteJournal.open(folder, Pace.FAST)) {
      JournalFigures.write(journal, journal.begin(BatchMaker.HEAD), ticks);
      journal.end(1, "complete", "");
    }
    long bytesPerDay = Files.size(folder.resolve("tarnish.db")) * 24 / HOURS;
    System.out.println("Record: " + bytesPerDay + " bytes a day at 4 ticks a second");
    assertTrue(bytesPerDay <= MOST_BYTES_A_DAY, bytesPerDay + " bytes a day");
  }
}
