package tarnish.controller.app;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Need;
import tarnish.controller.control.Outlook;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Words;
import tarnish.controller.service.Status;

/** Puts what is needed from a person, and when, into the words of the page. */
final class NeedWriter {
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm 'on' d MMM", Locale.ENGLISH);

  private NeedWriter() {}

  static List<Status.NeedLine> of(
      Plan plan, ControlState state, Outlook outlook, OffsetDateTime wallTime) {
    return Need.of(plan, state, outlook).stream().map(need -> line(need, state, wallTime)).toList();
  }

  private static Status.NeedLine line(Need need, ControlState state, OffsetDateTime wallTime) {
    String kind = need.kind().name().toLowerCase(Locale.ROOT);
    if (need.byS() < 0) {
      return new Status.NeedLine(kind, need.what(), "now", null);
    }
    double leftS = StrictMath.max(0, need.byS() - nowS(state));
    String about = need.kind() == Need.Kind.VISIT ? "about " : "by ";
    return new Status.NeedLine(
        kind,
        need.what(),
        about
            + clock(leftS, wallTime)
            + ", in "
            + Words.duration(StrictMath.round(leftS / 60) * 60.0),
        leftS);
  }

  /**
   * When a soak to come begins and ends, or the present one ends; empty where that is not known.
   */
  static String about(
      Outlook.Span span, String where, ControlState state, OffsetDateTime wallTime) {
    if (span == null || state.phase() != BatchState.RUNNING) {
      return "";
    }
    String end = clock(span.toS() - nowS(state), wallTime);
    return where.equals("now")
        ? "until about " + end
        : "about " + clock(span.fromS() - nowS(state), wallTime) + " to " + end;
  }

  private static double nowS(ControlState state) {
    return StrictMath.max(0, state.lastMillis()) / 1000.0;
  }

  private static String clock(double leftS, OffsetDateTime wallTime) {
    return CLOCK.format(wallTime.plusSeconds(StrictMath.round(leftS)));
  }
}
