package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.JournalFigures;
import tarnish.controller.journal.SqliteJournal;

/**
 * What a day of recording costs a card: size of the record, bytes handed to the kernel, and bytes
 * that reached the device with all that the file system writes for itself. Run by {@code
 * .ci/figures}.
 */
public final class WearFigures {
  private static final int TICKS = 6 * 4 * 3600;
  private static final double PER_DAY = 4.0 * 86_400 / TICKS;

  private WearFigures() {}

  public static void main(String[] arguments) throws Exception {
    String whyNot = SmallDisk.whyNot();
    Path folder = Files.createTempDirectory("tarnish-wear");
    if (whyNot.isEmpty()) {
      try (SmallDisk disk = SmallDisk.make(Files.createDirectory(folder.resolve("disk")))) {
        long before = disk.writtenBytes();
        long handed = record(disk.data());
        print(disk.data(), handed);
        System.out.printf(
            Locale.ROOT,
            "reached an ext4 device   %8.1f MB a day%n",
            (disk.writtenBytes() - before) * PER_DAY / 1e6);
      }
    } else {
      System.out.println("Without the device's own count: " + whyNot);
      Path data = folder.resolve("record");
      print(data, record(data));
    }
  }

  /** Gives the bytes handed to write calls. */
  private static long record(Path data) throws IOException {
    long before = written();
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      int batch =
          journal.begin(new BatchHead("invented", "", "", "2026-01-01T00:00:00Z", "invented", 1L));
      JournalFigures.write(journal, batch, TICKS);
      journal.end(batch, "complete", "");
    }
    return written() - before;
  }

  private static void print(Path data, long handed) throws IOException {
    long size = Files.size(data.resolve("tarnish.db"));
    System.out.printf(
        Locale.ROOT,
        "size of the record       %8.1f MB a day%nhanded to write calls     %8.1f MB a day%n",
        size * PER_DAY / 1e6,
        handed * PER_DAY / 1e6);
  }

  /** "wchar" of proc_pid_io(5). */
  private static long written() throws IOException {
    for (String line : Files.readAllLines(Path.of("/proc/self/io"))) {
      if (line.startsWith("wchar:")) {
        return Long.parseLong(line.substring(6).strip());
      }
    }
    throw new IllegalStateException("this kernel does not count what is written");
  }
}
