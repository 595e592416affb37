package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.rig.RigDescription;

/** {@code prooftest}: provokes every interlock on the simulated bench and keeps the result. */
@Command(
    name = "prooftest",
    mixinStandardHelpOptions = true,
    description =
        "Provokes each row of a rig's interlock table on the simulated bench, and records result"
            + " and next due date. It proves the table, not the wiring: a real bench is proved at"
            + " the bench. Exit status 0 if every row that can be provoked acts.")
final class ProofTestCommand implements Callable<Integer> {
  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rigFile;

  @Option(names = "--data", paramLabel = "DIR", description = "folder of the record to add to")
  private Path data;

  @Option(names = "--by", defaultValue = "command line", description = "who does it")
  private String by;

  @Option(
      names = "--every",
      defaultValue = "90",
      paramLabel = "DAYS",
      description = "days until it is due again (default: ${DEFAULT-VALUE})")
  private int everyDays;

  @Option(names = "--seed", defaultValue = "1", description = "draws the simulated bench")
  private long seed;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    if (everyDays < 1 || everyDays > 3660) {
      throw new CommandFailure("--every is " + everyDays + "; it must be from 1 to 3660 days.");
    }
    RigDescription rig = LoadedFiles.rig(rigFile.toString(), LoadedFiles.text(rigFile));
    ProofBench bench = new ProofBench(rig, seed);
    List<String> rows = InterlockTable.names(rig);
    List<ProofTrial> trials = ProofTrial.all();
    LocalDate today = LocalDate.now();
    LocalDate due = today.plusDays(everyDays);
    List<ProofRecord.Entry> entries = new ArrayList<>();
    PrintWriter out = spec.commandLine().getOut();
    out.printf(Locale.ROOT, "%-32s %-14s %10s  %s%n", "row", "result", "within", "due again");
    for (String row : rows) {
      trials.stream()
          .filter(trial -> trial.row().equals(row) && isAllowed(trial, rig))
          .findFirst()
          .ifPresentOrElse(
              trial -> {
                ProofBench.Result result = bench.run(trial);
                entries.add(
                    new ProofRecord.Entry(
                        row,
                        result.acted(),
                        result.withinS(),
                        today,
                        due,
                        by,
                        rig.name(),
                        "simulated bench, seed " + seed));
                out.println(line(result, due));
              },
              () -> out.printf(Locale.ROOT, "%-32s %-14s%n", row, "not provoked"));
      out.flush();
    }
    InterlockTable.missing(rig).forEach(missing -> out.println(missing.sentence()));
    if (data != null) {
      new ProofRecord(data).add(entries);
      out.println("Recorded in " + data.resolve(ProofRecord.FILE) + ".");
    }
    out.flush();
    return entries.stream().allMatch(ProofRecord.Entry::passed) ? Main.DONE : Main.FAILED;
  }

  /** Defeating can only be proved where the rig file allows it. */
  static boolean isAllowed(ProofTrial trial, RigDescription rig) {
    return !trial.row().equals("interlock defeated")
        || rig.defeat().interlocks().contains("door open");
  }

  private static String line(ProofBench.Result result, LocalDate due) {
    return String.format(
        Locale.ROOT,
        "%-32s %-14s %10s  %s",
        result.row(),
        result.acted() ? "acted" : "DID NOT ACT",
        Double.isFinite(result.withinS())
            ? String.format(Locale.ROOT, "%.2f s", result.withinS())
            : "-",
        result.acted()
            ? due
            : "now" + (result.first().isEmpty() ? "" : ", held by '" + result.first() + "'"));
  }
}
