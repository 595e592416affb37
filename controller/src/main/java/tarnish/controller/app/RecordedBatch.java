package tarnish.controller.app;

import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.SqliteJournal;

/** Arguments of a command that reads a recorded batch. */
final class RecordedBatch {
  @Parameters(paramLabel = "BATCH", description = "number of the batch, from 1")
  private int number;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR|FILE",
      description = "folder of the record, or an archive or backup")
  private Path data;

  int number() {
    return number;
  }

  /** Opens the record, which must exist and hold the batch. */
  SqliteJournal open() {
    SqliteJournal journal = opened();
    boolean known = journal.batches().stream().anyMatch(line -> line.batch() == number);
    if (!known) {
      int count = journal.batches().size();
      journal.close();
      throw new CommandFailure(
          "There is no batch " + number + " in " + data + "; it holds " + count + ".");
    }
    return journal;
  }

  /** A record that a service writes is only looked at. */
  private SqliteJournal opened() {
    if (Files.isRegularFile(data)) {
      return SqliteJournal.openToRead(data);
    }
    if (!Files.isDirectory(data)) {
      throw new CommandFailure("There is no folder or file " + data + ".");
    }
    try {
      return SqliteJournal.open(data);
    } catch (JournalException e) {
      if (e.trouble() == JournalException.Trouble.LOCKED) {
        return SqliteJournal.openToRead(data.resolve("tarnish.db"));
      }
      throw e;
    }
  }
}
