package tarnish.controller.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.Pace;
import tarnish.controller.journal.SqliteJournal;

/** {@code rehearse}: a whole batch on the simulated bench, as fast as the processor goes. */
@Command(
    name = "rehearse",
    mixinStandardHelpOptions = true,
    description =
        "Runs a recipe to its end on a simulated bench. Questions are answered by their stated"
            + " defaults, masses by the simulated balance. Exit status 0 if it ends complete.")
final class RehearseCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECIPE", description = "recipe file")
  private Path recipe;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--seed",
      defaultValue = "1",
      paramLabel = "N",
      description = "draws the bench and its noise (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(names = "--json", description = "print one JSON object, SI units")
  private boolean json;

  @Option(names = "--data", paramLabel = "DIR", description = "also record the batch there")
  private Path data;

  @Option(
      names = "--benches",
      defaultValue = "1",
      paramLabel = "N",
      description =
          "rehearse on N differently drawn benches and tell how the time and the margins vary"
              + " (default: ${DEFAULT-VALUE}, at most 100)")
  private int benches;

  @Option(
      names = "--faults",
      description =
          "also try each single fault at its worst moment and tell which interlock catches it, and"
              + " with what margins")
  private boolean faults;

  @Option(
      names = "--dosing",
      description = "also compare planned pulses with pulses of one size in every dose step")
  private boolean dosing;

  @Option(
      names = "--rise",
      defaultValue = "5",
      paramLabel = "KELVIN",
      description =
          "rise that --dosing plans with where a step does not say it (default: ${DEFAULT-VALUE})")
  private double riseK;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    if (benches < 1 || benches > 100) {
      throw new CommandFailure("--benches is " + benches + "; it must be from 1 to 100.");
    }
    LoadedFiles files = LoadedFiles.read(recipe, rig);
    OvenNotice.of(files.rig(), LocalDate.now())
        .ifPresent(notice -> spec.commandLine().getErr().println(notice));
    RehearsalResult result;
    if (data == null) {
      result = new Rehearsal(files, seed, Optional.empty()).run();
    } else {
      try (SqliteJournal journal = SqliteJournal.open(data, Pace.FAST)) {
        result = new Rehearsal(files, seed, Optional.of(journal)).run();
      }
    }
    if (benches > 1) {
      result = result.among(others(files, result));
    }
    List<FaultRehearsal.Outcome> outcomes =
        faults ? new FaultRehearsal(files, seed).run() : List.of();
    if (json) {
      spec.commandLine().getOut().print(result.json(outcomes) + "\n");
    } else {
      spec.commandLine().getOut().print(result.words());
      spec.commandLine().getOut().print(faults ? FaultLines.words(outcomes) : "");
      spec.commandLine().getOut().print(dosing ? DosingComparison.words(files, seed, riseK) : "");
    }
    spec.commandLine().getOut().flush();
    return result.isComplete() ? Main.DONE : Main.FAILED;
  }

  private List<RehearsalResult> others(LoadedFiles files, RehearsalResult first) {
    List<RehearsalResult> all = new ArrayList<>(List.of(first));
    for (int i = 1; i < benches; i++) {
      all.add(new Rehearsal(files, seed + i, Optional.empty()).run());
    }
    return all;
  }
}
