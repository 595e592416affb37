package tarnish.controller.control;

import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.Step;

/**
 * Watching the pressure with every valve shut. The second half of the watch decides, where
 * outgassing has levelled off the most; {@link LeakShape} says what of it is a leak.
 *
 * <p>The rise of each half is the difference of the mean pressures of its first and last quarter,
 * corrected to the temperature at the start.
 *
 * @param step what the recipe asks
 * @param elapsedS time since the valves shut
 * @param referenceVolumeOverTemperature V/T at the start of the watch, in m³/K
 * @param sums sum of the pressures in each eighth of the watch
 * @param counts readings in each eighth
 */
record LeakTestRun(
    Step.LeakTest step,
    double elapsedS,
    double referenceVolumeOverTemperature,
    double[] sums,
    int[] counts)
    implements StepRun {
  private static final int PARTS = 8;
  private static final int HALF = PARTS / 2;

  static LeakTestRun begin(Step.LeakTest step) {
    return new LeakTestRun(step, 0, 0, new double[PARTS], new int[PARTS]);
  }

  @Override
  public StepRun step(TickWork work) {
    double watchedS = elapsedS - step.settleS();
    if (watchedS < 0 || referenceVolumeOverTemperature == 0) {
      return new LeakTestRun(
          step, elapsedS + work.tickS, work.volumeOverTemperature(), sums, counts);
    }
    if (watchedS >= step.durationS()) {
      return judge(work);
    }
    int part = (int) (watchedS / step.durationS() * PARTS);
    double[] newSums = sums.clone();
    int[] newCounts = counts.clone();
    newSums[part] +=
        work.pressurePa() * work.volumeOverTemperature() / referenceVolumeOverTemperature;
    newCounts[part]++;
    return new LeakTestRun(
        step, elapsedS + work.tickS, referenceVolumeOverTemperature, newSums, newCounts);
  }

  private StepRun judge(TickWork work) {
    double first = slopePaPerS(0);
    double second = slopePaPerS(HALF);
    boolean passed = second <= step.riseMaxPaPerS();
    work.event(new Event.LeakTested(second, first, passed));
    work.leak = leak(first, second, passed, work);
    if (!passed) {
      work.report(
          InterlockTable.LEAK_TEST_FAILED,
          "It rose by "
              + Words.pressureRate(second)
              + "; at most "
              + Words.pressureRate(step.riseMaxPaPerS())
              + " is allowed.");
      return reentered();
    }
    return new Done("tight: rise " + Words.pressureRate(second));
  }

  private LeakRate leak(double first, double second, boolean passed, TickWork work) {
    double perPa = referenceVolumeOverTemperature / TwoZoneVolume.GAS_CONSTANT;
    double noise = slopeNoisePaPerS(work.plan.gaugeNoisePa());
    LeakShape shape = LeakShape.of(first, second, noise, step.durationS());
    double rise = StrictMath.max(0, second);
    return new LeakRate(
        shape.share() * rise * perPa, shape.uncertaintyPaPerS(rise, noise) * perPa, passed);
  }

  private double slopeNoisePaPerS(double gaugeNoisePa) {
    double span = step.durationS() / PARTS * (HALF - 1);
    return gaugeNoisePa * StrictMath.sqrt(2.0 / StrictMath.max(1, counts[PARTS - 1])) / span;
  }

  private double slopePaPerS(int from) {
    double span = step.durationS() / PARTS * (HALF - 1);
    return (mean(from + HALF - 1) - mean(from)) / span;
  }

  private double mean(int part) {
    return sums[part] / StrictMath.max(1, counts[part]);
  }

  @Override
  public StepRun reentered() {
    return begin(step);
  }

  @Override
  public boolean startsOver() {
    return true;
  }

  @Override
  public String doing() {
    return elapsedS < step.settleS()
        ? "letting the pressure settle"
        : "watching the pressure with every valve shut, "
            + Words.duration(step.durationS() + step.settleS() - elapsedS)
            + " to go";
  }
}
