package tarnish.controller.files;

import java.util.List;
import tarnish.shared.recipe.Step;

/** How many steps a recipe runs through, and how long its soaks are, if every repeat runs out. */
final class StepCount {
  private StepCount() {}

  static long steps(List<Step> steps) {
    long count = 0;
    for (Step step : steps) {
      count += step instanceof Step.Repeat repeat ? repeat.timesMax() * steps(repeat.steps()) : 1;
    }
    return count;
  }

  static int soaks(List<Step> steps) {
    int count = 0;
    for (Step step : steps) {
      if (step instanceof Step.Soak) {
        count++;
      } else if (step instanceof Step.Repeat repeat) {
        count += repeat.timesMax() * soaks(repeat.steps());
      }
    }
    return count;
  }

  static double soakS(List<Step> steps) {
    double sumS = 0;
    for (Step step : steps) {
      if (step instanceof Step.Soak soak) {
        sumS += soak.durationS();
      } else if (step instanceof Step.Repeat repeat) {
        sumS += repeat.timesMax() * soakS(repeat.steps());
      }
    }
    return sumS;
  }
}
