package tarnish.controller.control;

import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Recipe;

/** What is known after time in which nobody was in control, and whether the batch may go on. */
final class PowerReturn {
  private PowerReturn() {}

  /**
   * The outage with its cooling: T = Troom + (T0 - Troom) exp(-t/tau), tau from the temperatures
   * before and after. An estimate: the oven's own cooling is not a single exponential.
   */
  static Event.Outage outage(double outageS, TickWork work) {
    double afterK = work.readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0);
    double beforeK = work.sampleBeforeK;
    double roomK = work.roomK();
    double tauS = 0;
    if (afterK > roomK && beforeK > afterK && outageS > 0) {
      tauS = outageS / StrictMath.log((beforeK - roomK) / (afterK - roomK));
    }
    return new Event.Outage(outageS, beforeK, afterK, tauS);
  }

  /** Why the batch must be held; empty if it may go on by itself. */
  static String whyNotResumed(double outageS, TickWork work) {
    Recipe.Resume rule = work.recipe().whenAlone().afterPowerCut().orElse(null);
    if (rule == null) {
      return "The recipe does not let it go on by itself.";
    }
    if (work.phase != BatchState.RUNNING || work.run == null) {
      return "It was not running a step.";
    }
    if (work.doing() == null || Presences.needsPerson(work.doing().step()) || byHand(work)) {
      return "The step needs a person.";
    }
    if (!(outageS <= rule.outageMaxS())) {
      return "The recipe allows " + Words.duration(rule.outageMaxS()) + ".";
    }
    int row = work.alarms.holding(work.plan.interlocks());
    if (row >= 0) {
      return "A trip is up or latched: " + work.plan.interlocks().get(row).what();
    }
    if (!work.believable()) {
      return "Not every reading can be believed.";
    }
    boolean warm =
        work.sampleK() >= rule.temperatureMinK() && work.sampleK() <= rule.temperatureMaxK();
    boolean filled =
        work.pressurePa() >= rule.pressureMinPa() && work.pressurePa() <= rule.pressureMaxPa();
    if (!warm) {
      return "The sample is at " + Words.temperature(work.sampleK()) + ", outside its window.";
    }
    return filled
        ? ""
        : "The vessel is at " + Words.pressure(work.pressurePa()) + ", outside its window.";
  }

  private static boolean byHand(TickWork work) {
    return work.run instanceof OpenRun || work.run instanceof AskRun;
  }
}
