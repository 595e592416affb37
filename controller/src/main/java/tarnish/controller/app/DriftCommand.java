package tarnish.controller.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.files.OvenModelText;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.SqliteJournal;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.rig.RigDescription;

/** {@code drift}: whether the oven of a recorded batch still is what it was identified as. */
@Command(
    name = "drift",
    mixinStandardHelpOptions = true,
    description =
        "Compares the oven of a recorded batch with the model in its rig file: power, loss, and how"
            + " the sample follows. With --out it also writes that rig file with the model adapted,"
            + " for the batches after this one: a batch keeps the model that it began with.")
final class DriftCommand implements Callable<Integer> {
  @Mixin private RecordedBatch batch;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "write the batch's rig file with the adapted model there")
  private Path out;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    BatchHead head;
    DriftWatch watch;
    try (SqliteJournal journal = batch.open()) {
      head = journal.head(batch.number());
      DriftWatch looking = new DriftWatch(rig(head));
      journal.playBack(batch.number(), tick -> looking.look(tick.readings(), tick.outputs()));
      watch = looking;
    }
    PrintWriter print = spec.commandLine().getOut();
    print.println(watch.figures());
    List<String> sentences = watch.sentences();
    sentences.forEach(print::println);
    if (sentences.isEmpty() && watch.isEnough()) {
      print.println("The oven is what it was identified as.");
    }
    print.flush();
    if (out != null) {
      adapt(head, watch, print);
    }
    return Main.DONE;
  }

  private RigDescription rig(BatchHead head) {
    RigDescription rig = LoadedFiles.rig("rig of batch " + batch.number(), head.rigText());
    if (rig.regulation().model().isEmpty()) {
      throw new CommandFailure(
          "The rig file of batch " + batch.number() + " has no oven model; run 'identify' first.");
    }
    return rig;
  }

  private void adapt(BatchHead head, DriftWatch watch, PrintWriter print) {
    if (!watch.isEnough()) {
      throw new CommandFailure(
          "The batch was too short to adapt the model by it: identify the oven again instead.");
    }
    if (watch.sentences().isEmpty()) {
      print.println("There is nothing to adapt; " + out + " was not written.");
    } else {
      write(head, watch);
      print.println("The rig file with the adapted model was written to " + out + ".");
    }
    print.flush();
  }

  private void write(BatchHead head, DriftWatch watch) {
    IdentifiedOven old = rig(head).regulation().model().orElseThrow();
    IdentifiedOven adapted =
        new IdentifiedOven(
            watch.adapted(),
            old.standardUncertainty(),
            old.vesselName(),
            old.identified(),
            old.residualK());
    String text =
        OvenModelText.into(head.rigText(), adapted)
            .orElseThrow(
                () ->
                    new CommandFailure(
                        "The rig file's 'regulation' is not an indented block, so the model was"
                            + " not written. Write it as a block, one key a line."));
    try {
      Files.writeString(out, text, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new CommandFailure("Cannot write " + out + ": " + e.getMessage() + ".");
    }
  }
}
