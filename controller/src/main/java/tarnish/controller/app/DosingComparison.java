package tarnish.controller.app;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.UnaryOperator;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Words;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;

/** Rehearses a recipe with pulses of one size and with planned ones. */
final class DosingComparison {
  private DosingComparison() {}

  /** Time in dose steps, and the greatest warming within one. */
  private static final class Watch {
    private double doseS;
    private double riseK;
    private double fromK;
    private int position = -1;

    void look(BenchRun run) {
      ControlState state = run.state();
      int at = state.stepPosition();
      boolean dosing =
          state.phase() == BatchState.RUNNING
              && state.stepVisit() > 0
              && run.plan().stepAt(at) instanceof Step.Dose;
      if (!dosing) {
        position = -1;
        return;
      }
      double sampleK = run.bench() instanceof SimulatedBench b ? b.rig().truth().sampleK() : 0;
      if (position != at) {
        position = at;
        fromK = sampleK;
      }
      doseS += run.plan().rig().tickMillis() / 1000.0;
      riseK = Math.max(riseK, sampleK - fromK);
    }
  }

  static String words(LoadedFiles files, long seed, double riseK) {
    double largestPa = files.rig().unattended().pulseMaxPa();
    return "dosing\n"
        + line("pulses of one size", files, seed, dose -> dose.fixed(dose.pulsePa()))
        + line(
            String.format(Locale.ROOT, "planned, %.0f K", riseK),
            files,
            seed,
            dose -> dose.riseMaxK().isPresent() ? dose : dose.planned(largestPa, riseK));
  }

  private static String line(
      String name, LoadedFiles files, long seed, UnaryOperator<Step.Dose> change) {
    Recipe recipe = files.recipe().withSteps(changed(files.recipe().steps(), change));
    Watch watch = new Watch();
    RehearsalResult result =
        new Rehearsal(
                new LoadedFiles(recipe, files.recipeText(), files.rig(), files.rigText()),
                seed,
                Optional.empty())
            .watchedBy(watch::look)
            .run();
    return String.format(
        Locale.ROOT,
        "  %-26s %s in dose steps, %d pulses, warmed by at most %.1f K; batch %s in %s, %s taken"
            + " up%n",
        name,
        Words.duration(watch.doseS),
        result.doses(),
        watch.riseK,
        result.endState(),
        Words.duration(result.simulatedSeconds()),
        Words.amount(result.oxygenUptakeMol()));
  }

  private static List<Step> changed(List<Step> steps, UnaryOperator<Step.Dose> change) {
    return steps.stream()
        .map(
            step ->
                step instanceof Step.Dose dose
                    ? change.apply(dose)
                    : step instanceof Step.Repeat repeat
                        ? new Step.Repeat(
                            repeat.common(),
                            repeat.timesMax(),
                            repeat.until(),
                            changed(repeat.steps(), change))
                        : step)
        .toList();
  }
}
