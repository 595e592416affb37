package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JournalSizeTest {
  @TempDir Path folder;

  @Test
  void twoWeeksOfTwelveNoisyChannelsFitOnASmallCard() throws IOException {
    int ticks = 4 * 3600;
    try (SqliteJournal journal = SqliteJournal.open(folder, Pace.FAST)) {
      JournalFigures.write(journal, journal.begin(BatchMaker.HEAD), ticks);
      journal.end(1, "complete", "");
    }
    long bytesPerDay = Files.size(folder.resolve("tarnish.db")) * 24;
    System.out.println("Record: " + bytesPerDay + " bytes a day at 4 ticks a second");
    assertTrue(bytesPerDay * 14 < 100_000_000L, bytesPerDay + " bytes a day");
  }
}
