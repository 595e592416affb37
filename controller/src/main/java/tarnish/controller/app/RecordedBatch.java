package tarnish.controller.app;

import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tarnish.controller.journal.SqliteJournal;

/** Arguments of a command that reads a recorded batch. */
final class RecordedBatch {
  @Parameters(paramLabel = "BATCH", description = "number of the batch, from 1")
  private int number;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR",
      description = "folder of the record")
  private Path data;

  int number() {
    return number;
  }

  /** Opens the record, which must exist and hold the batch. */
  SqliteJournal open() {
    if (!Files.isDirectory(data)) {
      throw new CommandFailure("There is no folder " + data + ".");
    }
    SqliteJournal journal = SqliteJournal.open(data);
    boolean known = journal.batches().stream().anyMatch(line -> line.batch() == number);
    if (!known) {
      int count = journal.batches().size();
      journal.close();
      throw new CommandFailure(
          "There is no batch " + number + " in " + data + "; it holds " + count + ".");
    }
    return journal;
  }
}
