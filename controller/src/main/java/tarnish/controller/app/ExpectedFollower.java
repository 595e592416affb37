package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.ExpectedCourse;
import tarnish.controller.control.ExpectedCourse.Segment;
import tarnish.controller.service.Status;

/**
 * Moves what was expected of each step to when the step really began; steps to come follow one
 * after the other. Written by one thread, read by any.
 */
final class ExpectedFollower {
  private record Begun(int position, int visit, double atS) {}

  private final List<Begun> begun = new CopyOnWriteArrayList<>();
  private volatile ExpectedCourse course;
  private volatile double nowS;
  private int position = -1;
  private int visit;

  /** Takes the state after a tick. */
  void follow(ControlState state) {
    course = state.expectedCourse();
    nowS = state.lastMillis() / 1000.0;
    if (state.phase() == BatchState.RUNNING
        && state.stepVisit() > 0
        && (state.stepPosition() != position || state.stepVisit() != visit)) {
      position = state.stepPosition();
      visit = state.stepVisit();
      begun.add(new Begun(position, visit, nowS));
    }
  }

  /** The band over the whole batch, in order of time. */
  List<Status.BandLine> band() {
    ExpectedCourse expected = course;
    List<Begun> known = List.copyOf(begun);
    List<Status.BandLine> lines = new ArrayList<>();
    if (expected == null || known.isEmpty()) {
      return lines;
    }
    List<Segment> segments = expected.segments();
    int next = 0;
    for (int i = 0; i < known.size(); i++) {
      boolean last = i + 1 == known.size();
      double untilS = last ? Double.MAX_VALUE : known.get(i + 1).atS();
      for (int j = 0; j < segments.size(); j++) {
        if (segments.get(j).position() == known.get(i).position()
            && segments.get(j).visit() == known.get(i).visit()) {
          add(lines, segments.get(j), known.get(i).atS(), untilS);
          next = j + 1;
        }
      }
    }
    double atS = lines.isEmpty() ? nowS : Math.max(nowS, lines.get(lines.size() - 1).seconds());
    for (int j = next; j < segments.size(); j++) {
      add(lines, segments.get(j), atS, Double.MAX_VALUE);
      atS += segments.get(j).durationS();
    }
    return lines;
  }

  private static void add(
      List<Status.BandLine> lines, Segment segment, double fromS, double untilS) {
    for (int i = 0; i < segment.bounds().length; i++) {
      double atS = fromS + (i + 0.5) * segment.everyS();
      if (atS < untilS) {
        double[] b = segment.bounds()[i];
        lines.add(new Status.BandLine(atS, b[0], b[1], b[2], b[3], b[4], b[5]));
      }
    }
  }
}
