package tarnish.controller.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tarnish.controller.journal.Journal.EventLine;

/**
 * What is marked on a trend, from the events of a batch: doses, pauses, trips, openings, weighings.
 *
 * @param marks oldest first
 * @param readToS up to when the events were read, for asking on from there
 * @param more whether there are more already
 */
record MarkReader(List<Mark> marks, double readToS, boolean more) {
  /** More events than this in one answer would keep others waiting. */
  static final int EVENTS_MAX = 20_000;

  private static final Map<String, String> BY_KIND =
      Map.of("PulseGiven", "dose", "AlarmRaised", "alarm", "Weighed", "weighed");

  /** How {@code Event.StateChanged} tells the new state. */
  private static final Map<String, String> BY_STATE =
      Map.of(
          "paused", "pause",
          "holding", "trip",
          "running", "run",
          "stopping", "end",
          "aborting", "end",
          "stopped", "end",
          "aborted", "end",
          "complete", "end");

  /**
   * One mark.
   *
   * @param kind dose, alarm, weighed; pause and trip begin a stretch that run or end ends; open
   *     begins one that closed ends
   */
  record Mark(double seconds, String kind, String words) {}

  static MarkReader of(List<EventLine> events, double readToS) {
    List<Mark> marks = new ArrayList<>();
    double last = readToS;
    for (EventLine line : events) {
      String kind = kind(line);
      if (!kind.isEmpty()) {
        marks.add(new Mark(line.millis() / 1e3, kind, line.sentence()));
      }
      last = line.millis() / 1e3;
    }
    return new MarkReader(marks, last, events.size() == EVENTS_MAX);
  }

  private static String kind(EventLine line) {
    if (line.kind().equals("StateChanged")) {
      int arrow = line.sentence().indexOf(" → ");
      int colon = line.sentence().indexOf(':', StrictMath.max(0, arrow));
      return arrow < 0 || colon < 0
          ? ""
          : BY_STATE.getOrDefault(line.sentence().substring(arrow + 3, colon), "");
    }
    if (line.kind().equals("Asked") && line.sentence().contains(SWEEPING)) {
      return "open";
    }
    if (line.kind().equals("Answered")) {
      return "closed";
    }
    return BY_KIND.getOrDefault(line.kind(), "");
  }

  /** How the question begins that is open as long as the vessel may be open. */
  private static final String SWEEPING = "Inert gas is sweeping";
}
