package tarnish.controller.record;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Wall-clock names as the record prints them: as recorded, without a change of zone. */
final class Clock {
  private static final Pattern ISO =
      Pattern.compile("(\\d{4}-\\d\\d-\\d\\d)T(\\d\\d:\\d\\d)(:\\d\\d)?[.\\d]*(Z|[+-][\\d:]+)?");

  private Clock() {}

  /** Date, hour and minute; the text itself where it is no ISO 8601. */
  static String minute(String iso) {
    Matcher parts = ISO.matcher(iso);
    return parts.matches() ? parts.group(1) + " " + parts.group(2) : iso;
  }

  /** As {@link #minute} with the offset from UTC. */
  static String minuteAndZone(String iso) {
    Matcher parts = ISO.matcher(iso);
    if (!parts.matches()) {
      return iso;
    }
    String zone = parts.group(4) == null ? "" : parts.group(4).equals("Z") ? "" : parts.group(4);
    return minute(iso) + " UTC" + zone;
  }
}
