package tarnish.controller.app;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.record.BatchRecord;

/** {@code record}: the printable record of a batch with its exports. */
@Command(
    name = "record",
    mixinStandardHelpOptions = true,
    description =
        "Writes the printable record of a batch as one HTML file, the same as JSON, both exports"
            + " as CSV, and their SHA-256 sums.")
final class RecordCommand implements Callable<Integer> {
  @Mixin private RecordedBatch batch;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "FOLDER",
      description = "where to, made if missing; files of the same name are replaced")
  private Path to;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    try (SqliteJournal journal = batch.open()) {
      BatchRecord.of(journal, batch.number(), Version.text())
          .writeTo(to)
          .forEach((name, sum) -> spec.commandLine().getOut().println(sum + "  " + name));
    } catch (IllegalArgumentException | java.io.UncheckedIOException e) {
      throw new CommandFailure(e.getMessage());
    }
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }
}
