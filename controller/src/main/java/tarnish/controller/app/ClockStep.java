package tarnish.controller.app;

import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A change of the time of day, as the record tells it.
 *
 * @param seconds forwards; negative where the clock was set back
 */
record ClockStep(long seconds) {
  private static final Pattern DETAIL =
      Pattern.compile("The clock was set (forwards|back) by ([0-9]{1,12}) s[;.].*");

  /** For the person; read again by {@link #of}. */
  String detail() {
    return "The clock was set "
        + (seconds < 0 ? "back" : "forwards")
        + " by "
        + Math.abs(seconds)
        + " s; the times of this batch go on as they began.";
  }

  /** The step in s that a detail tells of; empty if it tells of none. */
  static OptionalLong of(String detail) {
    Matcher step = DETAIL.matcher(detail);
    if (!step.matches()) {
      return OptionalLong.empty();
    }
    long length = Long.parseLong(step.group(2));
    return OptionalLong.of(step.group(1).equals("back") ? -length : length);
  }
}
