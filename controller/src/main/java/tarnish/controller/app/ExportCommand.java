package tarnish.controller.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.CsvExport;
import tarnish.controller.journal.SqliteJournal;

/** {@code export}: a recorded batch as CSV. */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description = "Prints a batch as CSV: every tick, or with --events every event.")
final class ExportCommand implements Callable<Integer> {
  @Mixin private RecordedBatch batch;

  @Option(names = "--events", description = "events instead of readings")
  private boolean events;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    try (SqliteJournal journal = batch.open()) {
      if (events) {
        CsvExport.events(journal, batch.number(), out);
      } else {
        CsvExport.samples(journal, batch.number(), out);
      }
    }
    out.flush();
    return out.checkError() ? Main.FAILED : Main.DONE;
  }
}
