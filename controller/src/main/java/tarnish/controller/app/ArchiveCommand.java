package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.Archive;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.SqliteJournal;

/** {@code archive}: ended batches as files of their own. */
@Command(
    name = "archive",
    mixinStandardHelpOptions = true,
    description =
        "Writes an ended batch, or every one older than so many days, to a self-describing SQLite"
            + " file each, reads it back and compares. record, export and replay read such a file"
            + " with --data FILE.")
final class ArchiveCommand implements Callable<Integer> {
  private static final String RECORD = "tarnish.db";

  @Parameters(arity = "0..1", paramLabel = "BATCH", description = "number of the batch, from 1")
  private Integer batch;

  @Option(names = "--older-than", paramLabel = "DAYS", description = "all that began before that")
  private Double olderThanDays;

  @Option(names = "--data", required = true, paramLabel = "DIR", description = "of the record")
  private Path data;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "DIR",
      description = "folder of the archives, made if missing; none is replaced")
  private Path to;

  @Option(names = "--plain", description = "also every tick in plain numbers, in the table tick")
  private boolean plain;

  @Option(
      names = "--remove",
      description = "take what is archived out of the record (no service may run)")
  private boolean remove;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    if ((batch == null) == (olderThanDays == null)) {
      throw new CommandFailure("Give either the number of a batch or --older-than DAYS.");
    }
    if (olderThanDays != null && !(olderThanDays >= 0)) {
      throw new CommandFailure("--older-than is " + olderThanDays + "; it must not be negative.");
    }
    if (!Files.isRegularFile(data.resolve(RECORD))) {
      throw new CommandFailure("There is no record in " + data + ".");
    }
    PrintWriter out = spec.commandLine().getOut();
    if (remove) {
      try (SqliteJournal journal = SqliteJournal.open(data)) {
        List<Integer> archived = archive(journal, out);
        for (int each : archived) {
          Archive.remove(journal, each);
          journal.note("archived", "Batch " + each + " was moved to " + file(each) + ".");
          out.println("Batch " + each + " is no longer in the record.");
        }
      }
    } else {
      try (SqliteJournal journal = SqliteJournal.openToRead(data.resolve(RECORD))) {
        archive(journal, out);
      }
    }
    out.flush();
    return Main.DONE;
  }

  private List<Integer> archive(SqliteJournal journal, PrintWriter out) {
    List<Integer> chosen =
        journal.batches().stream().filter(this::isChosen).map(BatchLine::batch).sorted().toList();
    if (chosen.isEmpty()) {
      throw new CommandFailure(
          batch == null
              ? "No batch that has ended is as old as that."
              : "Batch " + batch + " is not there or has not ended.");
    }
    for (int each : chosen) {
      try {
        long bytes =
            Archive.write(
                data.resolve(RECORD), each, file(each), plain, "Tarnish " + Version.text());
        out.println("Batch " + each + ": " + file(each) + ", " + bytes + " bytes, read back.");
      } catch (IllegalArgumentException | JournalException e) {
        throw new CommandFailure(e.getMessage());
      }
    }
    return chosen;
  }

  private Path file(int number) {
    return to.resolve("batch-" + number + ".tarnish.db");
  }

  private boolean isChosen(BatchLine line) {
    if (line.endState().isEmpty()) {
      return false;
    }
    return batch != null
        ? line.batch() == batch
        : OffsetDateTime.parse(line.startedAt())
            .isBefore(OffsetDateTime.now().minusSeconds((long) (olderThanDays * 86_400)));
  }
}
