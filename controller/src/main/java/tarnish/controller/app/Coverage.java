package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import tarnish.shared.estimate.Estimate;

/** How often a stated 95 % interval covers the truth, and how far the values are off on average. */
final class Coverage {
  /** Half width of a 95 % interval in standard uncertainties (normal distribution). */
  private static final double HALF_WIDTH = 1.959964;

  /**
   * One row of the table.
   *
   * @param what is estimated
   * @param batches how many
   * @param covered share of batches whose interval covers the truth
   * @param bias mean of estimate less truth, relative to {@code scale}
   * @param deviation root mean square of the same
   * @param stated mean standard uncertainty, relative to {@code scale}
   */
  record Row(
      String what, int batches, double covered, double bias, double deviation, double stated) {}

  private final List<TrialBatch.Outcome> outcomes;
  private final double neededMol;
  private final double targetPerUnit;

  Coverage(List<TrialBatch.Outcome> outcomes, double neededMol, double targetPerUnit) {
    this.outcomes = List.copyOf(outcomes);
    this.neededMol = neededMol;
    this.targetPerUnit = targetPerUnit;
  }

  List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    rows.add(uptake("uptake, random moment", TrialBatch.Outcome::under));
    rows.add(uptake("uptake, end", TrialBatch.Outcome::end));
    rows.add(perUnit("composition, random moment", TrialBatch.Outcome::under));
    rows.add(perUnit("composition, end", TrialBatch.Outcome::end));
    return rows;
  }

  private Row uptake(String what, Function<TrialBatch.Outcome, TrialBatch.Look> at) {
    return row(
        what,
        outcomes.stream().map(at.andThen(TrialBatch.Look::uptakeMol)).toList(),
        outcomes.stream().map(at.andThen(TrialBatch.Look::trueUptakeMol)).toList(),
        neededMol);
  }

  private Row perUnit(String what, Function<TrialBatch.Outcome, TrialBatch.Look> at) {
    return row(
        what,
        outcomes.stream().map(at.andThen(TrialBatch.Look::perUnit)).toList(),
        outcomes.stream().map(at.andThen(TrialBatch.Look::truePerUnit)).toList(),
        targetPerUnit);
  }

  private static Row row(String what, List<Estimate> found, List<Double> truth, double scale) {
    int covered = 0;
    double sum = 0;
    double squares = 0;
    double stated = 0;
    for (int i = 0; i < found.size(); i++) {
      double error = found.get(i).value() - truth.get(i);
      double u = found.get(i).standardUncertainty();
      covered += Math.abs(error) <= HALF_WIDTH * u ? 1 : 0;
      sum += error / scale;
      squares += error * error / scale / scale;
      stated += u / scale;
    }
    int n = Math.max(1, found.size());
    return new Row(
        what, found.size(), (double) covered / n, sum / n, Math.sqrt(squares / n), stated / n);
  }

  String words() {
    StringBuilder words = new StringBuilder();
    words.append(
        String.format(
            Locale.ROOT,
            "%-28s %8s %9s %9s %9s %9s%n",
            "95 % interval of",
            "batches",
            "covered",
            "bias",
            "scatter",
            "stated u"));
    for (Row row : rows()) {
      words.append(
          String.format(
              Locale.ROOT,
              "%-28s %8d %7.1f %% %7.3f %% %7.3f %% %7.3f %%%n",
              row.what(),
              row.batches(),
              100 * row.covered(),
              100 * row.bias(),
              100 * row.deviation(),
              100 * row.stated()));
    }
    long complete = outcomes.stream().filter(TrialBatch.Outcome::isComplete).count();
    long halved = outcomes.stream().filter(o -> o.lostShare() > 0.5).count();
    words.append(
        String.format(
            Locale.ROOT,
            "Bias, scatter and u in %% of the theoretical uptake. %d of %d batches came to their end;"
                + " %d lost more than half of the solid.%n",
            complete,
            outcomes.size(),
            halved));
    return words.toString();
  }
}
