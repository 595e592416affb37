package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a day of recording writes to the file, as the kernel counts it for this process. */
class JournalWearTest {
  private static final Path COUNTERS = Path.of("/proc/self/io");
  private static final int TICKS_PER_DAY = 4 * 86_400;

  /** A page and its head each second, the pages of sealed blocks twice, with room to spare. */
  private static final long MOST_BYTES_A_DAY = 600_000_000;

  @TempDir Path folder;

  @Test
  void aDayWritesLessThanSixHundredMegabytes() throws IOException {
    boolean counted = Files.isReadable(COUNTERS);
    if (!counted) {
      System.out.println("JournalWearTest is skipped: this kernel does not count what is written.");
    }
    Assumptions.assumeTrue(counted, "this kernel does not count what is written");
    int ticks = 4 * 1200;
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = journal.begin(BatchMaker.HEAD);
      JournalFigures.write(journal, batch, 40);
      long before = written();
      JournalFigures.write(journal, journal.begin(BatchMaker.HEAD), ticks);
      journal.flush();
      long bytesPerDay = (written() - before) * (TICKS_PER_DAY / ticks);
      System.out.println("Record: " + bytesPerDay + " bytes written a day at 4 ticks a second");
      assertTrue(bytesPerDay > 0 && bytesPerDay <= MOST_BYTES_A_DAY, bytesPerDay + " bytes");
    }
  }

  /** Bytes handed to write calls: "wchar" of proc_pid_io(5). */
  private static long written() throws IOException {
    return Files.readAllLines(COUNTERS).stream()
        .filter(line -> line.startsWith("wchar:"))
        .mapToLong(line -> Long.parseLong(line.substring(7).strip()))
        .findFirst()
        .orElseThrow();
  }
}
