package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.ToDoubleFunction;
import java.util.stream.LongStream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.app.LatencyTrial.Measured;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.rig.RigDescription;

/** {@code latencies}: how long each row of the interlock table takes to make the bench safe. */
@Command(
    name = "latencies",
    mixinStandardHelpOptions = true,
    description =
        "Provokes each row of a rig's interlock table on many drawn benches at drawn moments, and"
            + " prints how long the plant was in breach before the outputs were off; and what a"
            + " runaway and a welded relay would come to if only the temperature limits acted.")
final class LatenciesCommand implements Callable<Integer> {
  private static final List<String> LIMITS =
      List.of("sample too hot", "oven too hot", "second oven sensor too hot", "seal too hot");

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rigFile;

  @Option(
      names = "--seeds",
      defaultValue = "1..20",
      converter = SeedRange.Converter.class,
      paramLabel = "A..B",
      description = "draw bench, moment and temperature (default: ${DEFAULT-VALUE})")
  private SeedRange seeds;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    RigDescription rig = LoadedFiles.rig(rigFile.toString(), LoadedFiles.text(rigFile));
    PrintWriter out = spec.commandLine().getOut();
    out.printf(
        Locale.ROOT,
        "%-32s %7s %10s %10s%n",
        "from the breach to outputs off",
        "acted",
        "median",
        "worst");
    boolean all = true;
    for (ProofTrial trial : trials(rig)) {
      List<Measured> measured = measure(trial, rig, "", List.of(trial.row()));
      all &= measured.stream().allMatch(Measured::acted);
      out.println(line(trial.row(), measured));
      out.flush();
    }
    for (ProofTrial trial : trials(rig)) {
      if (trial.row().equals("runaway") || trial.row().equals("heater stuck on")) {
        margin(trial, rig, out);
      }
    }
    out.flush();
    return all ? Main.DONE : Main.FAILED;
  }

  private static List<ProofTrial> trials(RigDescription rig) {
    List<String> rows = InterlockTable.names(rig);
    return ProofTrial.all().stream()
        .filter(trial -> rows.contains(trial.row()))
        // Ten minutes of waiting are its very meaning, and it withholds nothing.
        .filter(trial -> !trial.row().equals("pressure low"))
        .filter(trial -> ProofTestCommand.isAllowed(trial, rig))
        .toList();
  }

  private List<Measured> measure(
      ProofTrial trial, RigDescription rig, String without, List<String> anyOf) {
    return LongStream.rangeClosed(seeds.from(), seeds.to())
        .parallel()
        .mapToObj(seed -> new LatencyTrial(trial, rig, without, seed).run(anyOf))
        .toList();
  }

  private static String line(String row, List<Measured> measured) {
    double[] latencies = sorted(measured, Measured::latencyS);
    long acted = measured.stream().filter(Measured::acted).count();
    return String.format(
        Locale.ROOT,
        "%-32s %3d/%-3d %10s %10s",
        row,
        acted,
        measured.size(),
        latencies.length == 0 ? "-" : seconds(latencies[latencies.length / 2]),
        latencies.length == 0 ? "-" : seconds(latencies[latencies.length - 1]));
  }

  private void margin(ProofTrial trial, RigDescription rig, PrintWriter out) {
    List<Measured> with = measure(trial, rig, "", List.of(trial.row()));
    List<String> limits = new ArrayList<>(LIMITS);
    List<Measured> alone = measure(trial, rig, trial.row(), limits);
    out.printf(
        Locale.ROOT,
        "%n'%s' against the temperature limits alone, of %d benches:%n",
        trial.row(),
        with.size());
    out.println(trips("by the row", with));
    out.println(trips("limits only", alone));
    double[] won = new double[with.size()];
    double[] wonOven = new double[with.size()];
    for (int i = 0; i < won.length; i++) {
      won[i] = alone.get(i).peakSampleK() - with.get(i).peakSampleK();
      wonOven[i] = alone.get(i).peakOvenK() - with.get(i).peakOvenK();
    }
    Arrays.sort(won);
    Arrays.sort(wonOven);
    out.printf(
        Locale.ROOT,
        "  won: peak of the sample lower by %.0f K (median; least %.0f K), of the oven by %.0f K"
            + " (median; least %.0f K)%n",
        won[won.length / 2],
        won[0],
        wonOven[wonOven.length / 2],
        wonOven[0]);
  }

  private static String trips(String how, List<Measured> measured) {
    double[] latency = sorted(measured, Measured::latencyS);
    double[] sample = sorted(measured, Measured::sampleLeftK);
    double[] oven = sorted(measured, Measured::ovenLeftK);
    long acted = measured.stream().filter(Measured::acted).count();
    return String.format(
        Locale.ROOT,
        "  %-12s acted in %d, after %s (median), %s (worst); then left to the limit: sample %.0f K"
            + " (median), %.0f K (least), oven %.0f K, %.0f K",
        how,
        acted,
        latency.length == 0 ? "-" : seconds(latency[latency.length / 2]),
        latency.length == 0 ? "-" : seconds(latency[latency.length - 1]),
        sample[sample.length / 2],
        sample[0],
        oven[oven.length / 2],
        oven[0]);
  }

  private static double[] sorted(List<Measured> measured, ToDoubleFunction<Measured> what) {
    return measured.stream().mapToDouble(what).filter(Double::isFinite).sorted().toArray();
  }

  private static String seconds(double value) {
    return String.format(Locale.ROOT, "%.2f s", value);
  }
}
