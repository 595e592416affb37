package tarnish.controller.app;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.sim.BenchSpec;

/** {@code coverage}: are the stated uncertainties true? */
@Command(
    name = "coverage",
    mixinStandardHelpOptions = true,
    description =
        "Runs many simulated batches, each on a bench whose true values are drawn from the stated"
            + " uncertainties, with random pauses and losses, and prints how often the 95 %%"
            + " intervals of uptake and composition cover the truth.")
final class CoverageCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECIPE", description = "recipe file")
  private Path recipe;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--seeds",
      defaultValue = "1..100",
      converter = SeedRange.Converter.class,
      paramLabel = "A..B",
      description = "benches to draw (default: ${DEFAULT-VALUE})")
  private SeedRange seeds;

  @Option(
      names = "--other-solid",
      description = "a solid that follows another rate law than the usual one")
  private boolean otherSolid;

  @Option(names = "--each", description = "also print every batch")
  private boolean each;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    LoadedFiles files = LoadedFiles.read(recipe, rig);
    List<TrialBatch.Outcome> outcomes = run(files, seeds, otherSolid, Progress.of(spec, seeds));
    var out = spec.commandLine().getOut();
    if (each) {
      outcomes.forEach(o -> out.println(line(o)));
    }
    out.print(of(files, outcomes).words());
    out.flush();
    return Main.DONE;
  }

  static List<TrialBatch.Outcome> run(
      LoadedFiles files, SeedRange seeds, boolean otherSolid, Progress progress) {
    double lengthS =
        new Rehearsal(files, seeds.from(), java.util.Optional.empty()).run().simulatedSeconds();
    return seeds.each(
        seed -> TrialBatch.run(files, bench(files, seed, otherSolid), seed, lengthS), progress);
  }

  static Coverage of(LoadedFiles files, List<TrialBatch.Outcome> outcomes) {
    return new Coverage(
        outcomes, files.recipe().oxygenNeededMol(), files.recipe().target().oxygenPerUnit());
  }

  private static BenchSpec bench(LoadedFiles files, long seed, boolean otherSolid) {
    BenchSpec drawn = BenchSpec.drawn(files.rig(), files.recipe(), seed);
    return otherSolid ? OtherSolid.on(drawn) : drawn;
  }

  private static String line(TrialBatch.Outcome o) {
    return String.format(
        java.util.Locale.ROOT,
        "%6d  uptake %9.4f +- %.4f (true %9.4f) mmol   O per unit %.5f +- %.5f (true %.5f)"
            + "  lost %2.0f %%  under way %9.4f +- %.4f (true %9.4f) mmol  %s",
        o.seed(),
        1e3 * o.end().uptakeMol().value(),
        1e3 * o.end().uptakeMol().standardUncertainty(),
        1e3 * o.end().trueUptakeMol(),
        o.end().perUnit().value(),
        o.end().perUnit().standardUncertainty(),
        o.end().truePerUnit(),
        100 * o.lostShare(),
        1e3 * o.under().uptakeMol().value(),
        1e3 * o.under().uptakeMol().standardUncertainty(),
        1e3 * o.under().trueUptakeMol(),
        o.isComplete() ? "" : "not complete: " + o.why());
  }
}
