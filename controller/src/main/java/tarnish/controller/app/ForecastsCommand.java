package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.shared.kinetics.Forecast;

/** {@code forecasts}: is the time left that is forecast half-way true? */
@Command(
    name = "forecasts",
    mixinStandardHelpOptions = true,
    description =
        "Lets simulated soaks at temperatures and to conversions that are drawn run to their true"
            + " end, and prints how often the interval that was forecast half-way covers it.")
final class ForecastsCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECIPE", description = "recipe file: its charge is used, not its steps")
  private Path recipe;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--seeds",
      defaultValue = "1..50",
      converter = SeedRange.Converter.class,
      paramLabel = "A..B",
      description = "soaks to draw (default: ${DEFAULT-VALUE})")
  private SeedRange seeds;

  @Option(names = "--each", description = "also print every soak")
  private boolean each;

  @Spec private CommandSpec spec;

  /**
   * @param drawn soaks
   * @param ended of them, with an end that is worth a forecast
   * @param forecast of them, with a forecast half-way
   * @param covered of them, with an interval that holds the true end
   * @param medianError of the forecast end, without its sign, relative
   */
  record Summary(int drawn, int ended, int forecast, int covered, double medianError) {
    static Summary of(List<ForecastTrial.Result> results) {
      double[] errors =
          results.stream()
              .filter(ForecastTrial.Result::isForecast)
              .mapToDouble(r -> Math.abs(r.relativeError()))
              .sorted()
              .toArray();
      return new Summary(
          results.size(),
          (int) results.stream().filter(ForecastTrial.Result::ended).count(),
          errors.length,
          (int) results.stream().filter(ForecastTrial.Result::covered).count(),
          errors.length == 0 ? Double.NaN : errors[errors.length / 2]);
    }

    String words() {
      return String.format(
          Locale.ROOT,
          "%d soaks, %d with an end after an hour or more, %d of them with a forecast half-way:"
              + " interval covers the true end in %d (%.1f %%), median error %.1f %%.%n",
          drawn,
          ended,
          forecast,
          covered,
          100.0 * covered / Math.max(1, forecast),
          100 * medianError);
    }
  }

  @Override
  public Integer call() {
    LoadedFiles files = LoadedFiles.read(recipe, rig);
    List<ForecastTrial.Result> results = run(files, seeds, Progress.of(spec, seeds));
    PrintWriter out = spec.commandLine().getOut();
    if (each) {
      results.forEach(r -> out.println(line(r)));
    }
    out.print(Summary.of(results).words());
    out.flush();
    return Main.DONE;
  }

  static List<ForecastTrial.Result> run(LoadedFiles files, SeedRange seeds, Progress progress) {
    return seeds.each(seed -> ForecastTrial.run(files, seed), progress);
  }

  private static String line(ForecastTrial.Result r) {
    String said =
        r.half() instanceof Forecast.At at
            ? String.format(
                Locale.ROOT,
                "%.2f h (%.2f to %.2f), %s%s",
                at.timeS() / 3600,
                at.fromS() / 3600,
                at.toS() / 3600,
                at.law().words(),
                r.ended() && !r.covered() ? "  MISSED" : "")
            : ((Forecast.None) r.half()).reason();
    return String.format(
        Locale.ROOT,
        "%6d  %.0f °C to %.2f: true %.2f h, half-way %s",
        r.seed(),
        r.soakC(),
        r.wanted(),
        r.endS() / 3600,
        said);
  }
}
