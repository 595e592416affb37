package tarnish.controller.record;

import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Wall-clock names as the record prints them: in UTC, in which no hour comes twice. */
final class Clock {
  private static final Pattern ISO =
      Pattern.compile("(\\d{4}-\\d\\d-\\d\\d)T(\\d\\d:\\d\\d)(:\\d\\d)?[.\\d]*(Z|[+-][\\d:]+)?");

  private Clock() {}

  /** Date, hour and minute; the text itself where it is no ISO 8601. */
  static String minute(String iso) {
    Matcher parts = ISO.matcher(inUtc(iso));
    return parts.matches() ? parts.group(1) + " " + parts.group(2) : iso;
  }

  /** As {@link #minute} with the name of the zone. */
  static String minuteAndZone(String iso) {
    return ISO.matcher(iso).matches() ? minute(iso) + " UTC" : iso;
  }

  private static String inUtc(String iso) {
    try {
      return OffsetDateTime.parse(iso).withOffsetSameInstant(ZoneOffset.UTC).toString();
    } catch (DateTimeParseException e) {
      return iso;
    }
  }
}
