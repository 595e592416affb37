package tarnish.controller.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.record.BatchRecord;
import tarnish.controller.record.Comparison;
import tarnish.controller.record.InForce;

/** {@code record}: the printable record of a batch with its exports. */
@Command(
    name = "record",
    mixinStandardHelpOptions = true,
    description =
        "Writes the printable record of a batch as one HTML file, the same as PDF and as JSON, both"
            + " exports as CSV, and their SHA-256 sums; or prints batches side by side.")
final class RecordCommand implements Callable<Integer> {
  @Mixin private RecordedBatch batch;

  @Option(
      names = "--to",
      paramLabel = "FOLDER",
      description = "where to, made if missing; files of the same name are replaced")
  private Path to;

  @Option(
      names = "--compare",
      split = ",",
      paramLabel = "BATCH",
      description = "prints the batch beside these in a table, what differs marked")
  private List<Integer> others = List.of();

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    if (to == null && others.isEmpty()) {
      throw new ParameterException(
          spec.commandLine(), "Say where to write it with --to, or what to --compare it with.");
    }
    try (SqliteJournal journal = batch.open()) {
      if (!others.isEmpty()) {
        List<Integer> all = new ArrayList<>(List.of(batch.number()));
        all.addAll(others);
        spec.commandLine().getOut().print(Comparison.of(journal, all).words());
      }
      if (to != null) {
        InForce inForce =
            InForceReader.of(journal.folder(), journal.head(batch.number()).startedAt());
        BatchRecord.of(journal, batch.number(), Version.text(), inForce)
            .writeTo(to)
            .forEach((name, sum) -> spec.commandLine().getOut().println(sum + "  " + name));
      }
    } catch (IllegalArgumentException | java.io.UncheckedIOException e) {
      throw new CommandFailure(e.getMessage());
    }
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }
}
