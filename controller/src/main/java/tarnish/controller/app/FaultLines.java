package tarnish.controller.app;

import java.util.List;
import java.util.Locale;
import tarnish.controller.control.Words;

/** What single faults would do, in words. */
final class FaultLines {
  private FaultLines() {}

  static String words(List<FaultRehearsal.Outcome> outcomes) {
    StringBuilder words =
        new StringBuilder("single faults, each at its worst moment, worst first\n");
    for (FaultRehearsal.Outcome outcome : outcomes) {
      words.append(
          String.format(
              Locale.ROOT,
              "  %-31s %-28s %s%n",
              outcome.fault(),
              outcome.moment(),
              sentence(outcome)));
    }
    return words.toString();
  }

  /** Who caught it, how soon, and how far everything stayed from its limit. */
  static String sentence(FaultRehearsal.Outcome outcome) {
    String caught =
        outcome.caughtBy().isEmpty()
            ? "no interlock acts within 2 h, batch " + outcome.endState()
            : "'"
                + outcome.caughtBy()
                + "' after "
                + Words.duration(outcome.afterSeconds())
                + ", batch "
                + outcome.endState();
    return caught
        + String.format(
            Locale.ROOT,
            "; margins: sample %.0f K, oven %.0f K, pressure %.0f mbar%s",
            outcome.sampleMarginK(),
            outcome.ovenMarginK(),
            outcome.pressureMarginPa() / 100,
            outcome.nearness() < 0 ? ": ONLY THE HARD-WIRED LIMITS HELP" : "");
  }
}
