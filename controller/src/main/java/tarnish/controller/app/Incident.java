package tarnish.controller.app;

import java.util.Locale;
import tarnish.controller.control.Words;
import tarnish.sim.Fault;

/**
 * Something that goes wrong, or somebody who presses something, in a campaign.
 *
 * @param number names it within its seed
 * @param kind what sort of thing
 * @param fault of the bench; null for another kind
 * @param atS when it begins, in s since the batch began
 * @param forS how long it lasts, in s
 * @param severity of a fault of the bench
 * @param draw decides what a press is
 */
record Incident(
    int number, Kind kind, Fault fault, double atS, double forS, double severity, long draw) {

  enum Kind {
    FAULT("fault"),
    POWER_CUT("power cut"),
    LOOP_STALL("control loop stands still"),
    JOURNAL("journal cannot be written"),
    CLOCK_LOST("clock lost"),
    CLOCK_STEPPED("clock stepped"),
    SPILL("part of the solid is spilled"),
    ABSENCE("nobody comes"),
    PRESS("somebody presses something");

    private final String words;

    Kind(String words) {
      this.words = words;
    }
  }

  boolean isOperators() {
    return kind == Kind.PRESS || kind == Kind.ABSENCE;
  }

  String words() {
    String what =
        kind == Kind.FAULT
            ? fault.words() + String.format(Locale.ROOT, " (severity %.2f)", severity)
            : kind.words;
    String lasts = forS > 0 ? " for " + Words.duration(Math.rint(forS)) : "";
    return number + ": " + what + " at " + Words.duration(Math.rint(atS)) + lasts;
  }
}
