package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.ToDoubleFunction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.shared.rig.RigDescription;

/** {@code ovens}: how regulation does on a family of very different ovens. */
@Command(
    name = "ovens",
    mixinStandardHelpOptions = true,
    description =
        "Identifies and regulates a family of simulated ovens (power, heat capacities, dead time"
            + " and loss each within half), by model and by a plain PID, and prints how it went.")
final class OvensCommand implements Callable<Integer> {
  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rigFile;

  @Option(
      names = "--seeds",
      defaultValue = "1..20",
      converter = SeedRange.Converter.class,
      paramLabel = "A..B",
      description = "first and last oven (default: ${DEFAULT-VALUE})")
  private SeedRange seeds;

  @Option(
      names = "--optimum",
      defaultValue = "0",
      paramLabel = "N",
      description =
          "for the first N ovens, also search the tuning of the same loop that would have been best"
              + " for that very batch (default: ${DEFAULT-VALUE})")
  private int optimum;

  @Option(
      names = "--intervals",
      defaultValue = "0",
      paramLabel = "N",
      description =
          "also identify N ovens that are exactly such a model and count the 95 %% intervals that"
              + " hold the true parameter (default: ${DEFAULT-VALUE})")
  private int intervals;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    RigDescription rig = LoadedFiles.rig(rigFile.toString(), LoadedFiles.text(rigFile));
    PrintWriter out = spec.commandLine().getOut();
    Table table = new Table(out);
    for (long seed = seeds.from(); seed <= seeds.to(); seed++) {
      OvenTrial trial = new OvenTrial(rig, seed);
      table.row(seed, trial);
      if (table.model.size() <= optimum) {
        table.optimum(seed, new OvenOptimum(trial).find());
      }
    }
    table.end();
    if (intervals > 0) {
      FitTrial.Count count = FitTrial.of(1);
      for (long seed = 2; seed <= intervals; seed++) {
        count = count.and(FitTrial.of(seed));
      }
      out.printf(
          "identification: %d of %d intervals of 95 %% hold the truth, %.1f %%%n",
          count.inside(), count.all(), 100 * count.share());
    }
    out.flush();
    return Main.DONE;
  }

  /** Rows as they come, and the figures over all of them. */
  static final class Table {
    private final PrintWriter out;
    private final List<OvenTrial.Course> model = new ArrayList<>();
    private final List<OvenTrial.Course> plain = new ArrayList<>();
    private final List<OvenTrial.Course> best = new ArrayList<>();

    Table(PrintWriter out) {
      this.out = out;
      out.println(
          " oven  fit rms K | by model: overshoot K  soak sd K  lag K  held back s  exotherm K  h  error K h"
              + " | plain PID: overshoot K  exotherm K  h | error ratio");
    }

    void row(long seed, OvenTrial trial) {
      OvenTrial.Course m = trial.byModel();
      OvenTrial.Course p = trial.byPlainPid();
      model.add(m);
      plain.add(p);
      out.printf(
          "%5d  %4.2f %4.2f  |  %20.2f  %9.3f  %5.2f  %11.0f  %8.1f %s  %3.1f  %4.1f  |"
              + "  %20.2f  %8.1f %s  %3.1f |  %.2f%n",
          seed,
          trial.fit().ovenRmsK(),
          trial.fit().sampleRmsK(),
          m.overshootK(),
          m.soakSpreadK(),
          m.lagK(),
          m.heldBackS(),
          m.exothermK(),
          m.recovered() ? "ok" : "NO",
          m.hours(),
          m.absoluteErrorKS() / 3600,
          p.overshootK(),
          p.exothermK(),
          p.recovered() ? "ok" : "NO",
          p.hours(),
          m.absoluteErrorKS() / p.absoluteErrorKS());
      out.flush();
    }

    void optimum(long seed, OvenOptimum.Best found) {
      best.add(found.course());
      double ours = model.get(model.size() - 1).absoluteErrorKS();
      out.printf(
          "%5d  found optimum: overshoot %.2f K, lag %.2f K, error of the usual tuning / optimum"
              + " %.2f; %s%n",
          seed,
          found.course().overshootK(),
          found.course().lagK(),
          ours / found.course().absoluteErrorKS(),
          found.tuning());
      out.flush();
    }

    /** Error of the usual tuning over that of each oven's own best one. */
    double toOptimum() {
      double ours =
          model.subList(0, best.size()).stream()
              .mapToDouble(OvenTrial.Course::absoluteErrorKS)
              .sum();
      return ours / best.stream().mapToDouble(OvenTrial.Course::absoluteErrorKS).sum();
    }

    private double worstToOptimum() {
      double worst = 0;
      for (int i = 0; i < best.size(); i++) {
        worst = Math.max(worst, model.get(i).absoluteErrorKS() / best.get(i).absoluteErrorKS());
      }
      return worst;
    }

    void end() {
      out.printf(
          "ramp lag above 2 K while not saturated: %d of %d ovens%n",
          model.stream().filter(c -> c.lagK() > 2).count(), model.size());
      if (!best.isEmpty()) {
        out.printf(
            "error of the usual tuning / found optimum of the same loop, %d ovens: of sums %.2f,"
                + " worst %.2f%n",
            best.size(), toOptimum(), worstToOptimum());
      }
      out.printf(
          "ovens %d, by model complete %d, exotherm recovered %d%n",
          model.size(),
          model.stream().filter(OvenTrial.Course::complete).count(),
          model.stream().filter(OvenTrial.Course::recovered).count());
      figures("overshoot K", OvenTrial.Course::overshootK);
      figures("soak standard deviation K", OvenTrial.Course::soakSpreadK);
      figures("ramp lag K", OvenTrial.Course::lagK);
      figures("exotherm K", OvenTrial.Course::exothermK);
      out.printf(
          "integrated absolute error against the recipe's straight ramps: ratio of sums %.2f%n",
          errorRatio());
    }

    private void figures(String name, ToDoubleFunction<OvenTrial.Course> figure) {
      out.printf(
          "%-26s by model: 95th percentile %.3f, worst %.3f; plain PID: %.3f, %.3f%n",
          name,
          percentile(model, figure, 0.95),
          percentile(model, figure, 1),
          percentile(plain, figure, 0.95),
          percentile(plain, figure, 1));
    }

    double percentile(ToDoubleFunction<OvenTrial.Course> figure, double share) {
      return percentile(model, figure, share);
    }

    private static double percentile(
        List<OvenTrial.Course> of, ToDoubleFunction<OvenTrial.Course> figure, double share) {
      double[] sorted = of.stream().mapToDouble(figure).sorted().toArray();
      return sorted[(int) Math.ceil(share * sorted.length) - 1];
    }

    double errorRatio() {
      return model.stream().mapToDouble(OvenTrial.Course::absoluteErrorKS).sum()
          / plain.stream().mapToDouble(OvenTrial.Course::absoluteErrorKS).sum();
    }

    long recovered() {
      return model.stream().filter(OvenTrial.Course::recovered).count();
    }
  }
}
