package tarnish.controller.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.controller.control.StallJudge.Cause;

/** {@code stalls}: does the judge find out why uptake stopped? */
@Command(
    name = "stalls",
    mixinStandardHelpOptions = true,
    description =
        "Lets simulated batches stall for causes that are known and prints which cause was ranked"
            + " first (rows: what really was, columns: what was found).")
final class StallsCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECIPE", description = "recipe file: its charge is used, not its steps")
  private Path recipe;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--seeds",
      defaultValue = "1..70",
      converter = SeedRange.Converter.class,
      paramLabel = "A..B",
      description = "stalls to draw (default: ${DEFAULT-VALUE})")
  private SeedRange seeds;

  @Option(names = "--wrong", description = "also print the evidence of each wrong finding")
  private boolean wrong;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    LoadedFiles files = LoadedFiles.read(recipe, rig);
    List<StallTrial.Result> results = run(files, seeds, Progress.of(spec, seeds));
    var out = spec.commandLine().getOut();
    if (wrong) {
      results.stream()
          .filter(r -> !r.isRight())
          .forEach(
              r -> {
                out.println(
                    "seed " + r.seed() + ", really " + r.truth().words() + "; " + r.ended());
                r.found().stream()
                    .limit(3)
                    .forEach(
                        v ->
                            out.printf(
                                Locale.ROOT,
                                "    %.2f %s: %s%n",
                                v.weight(),
                                v.cause().words(),
                                v.evidence()));
                r.found().stream()
                    .filter(v -> v.cause() == r.truth())
                    .forEach(v -> out.println("    truth: " + v.weight() + " " + v.evidence()));
              });
    }
    out.print(table(results));
    out.flush();
    return Main.DONE;
  }

  static List<StallTrial.Result> run(LoadedFiles files, SeedRange seeds, Progress progress) {
    return seeds.each(seed -> StallTrial.run(files, seed), progress);
  }

  static String table(List<StallTrial.Result> results) {
    Cause[] causes = Cause.values();
    int[][] counts = new int[causes.length][causes.length + 1];
    int right = 0;
    for (StallTrial.Result r : results) {
      int column = r.found().isEmpty() ? causes.length : r.found().get(0).cause().ordinal();
      counts[r.truth().ordinal()][column]++;
      right += r.isRight() ? 1 : 0;
    }
    StringBuilder words = new StringBuilder(String.format("%-14s", "really"));
    for (Cause cause : causes) {
      words.append(String.format("%12s", name(cause)));
    }
    words.append(String.format("%12s%n", "none seen"));
    for (Cause cause : causes) {
      words.append(String.format("%-14s", name(cause)));
      for (int count : counts[cause.ordinal()]) {
        words.append(String.format("%12d", count));
      }
      words.append(System.lineSeparator());
    }
    return words
        .append(
            String.format(
                Locale.ROOT,
                "%d of %d ranked first as they really were (%.1f %%).%n",
                right,
                results.size(),
                100.0 * right / Math.max(1, results.size())))
        .toString();
  }

  private static String name(Cause cause) {
    return cause.name().toLowerCase(Locale.ROOT);
  }
}
