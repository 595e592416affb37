package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.shared.rig.RigDescription;

/** {@code doses}: what planned pulses save against pulses of one size. */
@Command(
    name = "doses",
    mixinStandardHelpOptions = true,
    description =
        "Doses invented charges twice, by planned pulses and by pulses of one size that warm the"
            + " sample to the same peak, and prints the time to 95 %% of the uptake.")
final class DosesCommand implements Callable<Integer> {
  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rigFile;

  @Option(
      names = "--seeds",
      defaultValue = "1..10",
      paramLabel = "A..B",
      converter = SeedRange.Converter.class,
      description = "first and last charge (default: ${DEFAULT-VALUE})")
  private SeedRange seeds;

  @Option(
      names = "--rise",
      defaultValue = "5",
      paramLabel = "KELVIN",
      description = "rise of the sample that the plan may use (default: ${DEFAULT-VALUE})")
  private double riseK;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    if (!(riseK >= 1 && riseK <= 50)) {
      throw new CommandFailure("--rise is " + riseK + "; it must be from 1 to 50 K.");
    }
    RigDescription rig = LoadedFiles.rig(rigFile.toString(), LoadedFiles.text(rigFile));
    Table table = new Table(spec.commandLine().getOut());
    seeds.seeds().forEach(seed -> table.row(seed, new DoseTrial(rig, riseK, seed).run()));
    table.end();
    return Main.DONE;
  }

  /** Rows as they come, and the figures over all of them. */
  static final class Table {
    private final PrintWriter out;
    private final List<DoseTrial.Pair> pairs = new ArrayList<>();

    Table(PrintWriter out) {
      this.out = out;
      out.println(
          " charge | planned: h  pulses  peak K | one size: mbar  h  pulses  peak K | ratio");
    }

    void row(long seed, DoseTrial.Pair pair) {
      pairs.add(pair);
      out.printf(
          "%7d | %10.2f  %6d  %6.2f%s | %14.2f  %.2f  %6d  %6.2f%s | %.2f%n",
          seed,
          pair.planned().hours(),
          pair.planned().pulses(),
          pair.planned().peakK(),
          mark(pair.planned()),
          pair.fixedPa() / 100,
          pair.fixed().hours(),
          pair.fixed().pulses(),
          pair.fixed().peakK(),
          mark(pair.fixed()),
          pair.ratio());
      out.flush();
    }

    private static String mark(DoseTrial.Course course) {
      return course.complete() && course.trips() == 0 ? "" : " NOT COMPLETE";
    }

    void end() {
      out.printf(
          "charges %d, complete both ways %d; time planned / one size: median %.2f, worst %.2f,"
              + " of sums %.2f; greatest planned peak %.2f K%n",
          pairs.size(), complete(), ratio(0.5), ratio(1), ofSums(), peakK());
      out.flush();
    }

    long complete() {
      return pairs.stream()
          .filter(p -> mark(p.planned()).isEmpty() && mark(p.fixed()).isEmpty())
          .count();
    }

    double ratio(double share) {
      double[] sorted = pairs.stream().mapToDouble(DoseTrial.Pair::ratio).sorted().toArray();
      return sorted[(int) Math.ceil(share * sorted.length) - 1];
    }

    double ofSums() {
      return pairs.stream().mapToDouble(p -> p.planned().hours()).sum()
          / pairs.stream().mapToDouble(p -> p.fixed().hours()).sum();
    }

    double peakK() {
      return pairs.stream().mapToDouble(p -> p.planned().peakK()).max().orElse(0);
    }
  }
}
