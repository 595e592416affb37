package tarnish.controller.journal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;

/** Keeps a copy of a damaged write-ahead log before the database drops what it cannot read. */
final class LogAside {
  private LogAside() {}

  /** What a person must know, or empty if the log beside {@code record} is sound. */
  static String keep(Path record) {
    Path log = record.resolveSibling(record.getFileName() + "-wal");
    try {
      String fault = LogCheck.faultOf(log);
      if (fault.isEmpty()) {
        return "";
      }
      String stamp = DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss").format(LocalDateTime.now());
      Path aside = record.resolveSibling("tarnish-set-aside-" + stamp + ".log");
      for (int i = 2; Files.exists(aside); i++) {
        aside = record.resolveSibling("tarnish-set-aside-" + stamp + "-" + i + ".log");
      }
      Files.copy(log, aside);
      return "The newest part of the record was damaged on the disk: "
          + fault
          + ". What came before it is kept; the damaged part was kept as "
          + aside.getFileName()
          + ". Samples and events of the last minutes may be missing: look at the bench before you"
          + " go on.";
    } catch (IOException e) {
      throw new JournalException(
          JournalException.Trouble.DEVICE, "The record cannot be opened (" + log + ")", e);
    }
  }
}
