package tarnish.controller.app;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.SqliteJournal;

/** {@code replay}: control again on recorded readings and requests. */
@Command(
    name = "replay",
    mixinStandardHelpOptions = true,
    description =
        "Runs the control core again on the recorded readings and requests of a batch. Exit status"
            + " 1 at the first output or event that differs.")
final class ReplayCommand implements Callable<Integer> {
  @Mixin private RecordedBatch batch;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    Replay.Outcome outcome;
    try (SqliteJournal journal = batch.open()) {
      outcome = Replay.of(journal, batch.number());
    }
    if (!outcome.firstDifference().isEmpty()) {
      throw new CommandFailure("First difference " + outcome.firstDifference() + ".");
    }
    spec.commandLine()
        .getOut()
        .println("Batch " + batch.number() + ": " + outcome.ticks() + " ticks, no difference.");
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }
}
