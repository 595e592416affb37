package tarnish.controller.journal;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Records from before the size of a clock's step was a number of its own hold it in words only. */
final class ClockStepWords {
  private static final Pattern DETAIL =
      Pattern.compile("The clock was set (forwards|back) by ([0-9]{1,12}) s[;.].*");

  private ClockStepWords() {}

  /** The step forwards in s that a detail tells of, negative for back; 0 if it tells of none. */
  static long secondsIn(String detail) {
    Matcher step = DETAIL.matcher(detail);
    if (!step.matches()) {
      return 0;
    }
    long seconds = Long.parseLong(step.group(2));
    return step.group(1).equals("back") ? -seconds : seconds;
  }
}
