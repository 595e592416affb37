package tarnish.controller.app;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.ExpectedCourse;
import tarnish.controller.control.ExpectedCourse.Segment;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;

/**
 * What a rehearsal did, step by step: lowest and highest of each value in each of at most 48 equal
 * parts of a step. Not thread-safe.
 */
final class ExpectedTrace {
  private static final int PARTS_MAX = 48;
  private static final double FIRST_S = 2;
  private static final int BOUNDS = 2 * ExpectedCourse.VALUES;

  /** Place of the lower bound of the uptake among them. */
  private static final int UPTAKE_LOW = 4;

  private record Key(int position, int visit) {}

  private static final class Parts {
    double everyS = FIRST_S;
    final double[][] bounds = new double[PARTS_MAX][];
    int size;

    void add(double stepS, double[] values) {
      while (stepS >= everyS * PARTS_MAX) {
        halve();
      }
      int at = (int) (stepS / everyS);
      if (bounds[at] == null) {
        bounds[at] = new double[BOUNDS];
        for (int i = 0; i < values.length; i++) {
          bounds[at][2 * i] = values[i];
          bounds[at][2 * i + 1] = values[i];
        }
      }
      for (int i = 0; i < values.length; i++) {
        bounds[at][2 * i] = Math.min(bounds[at][2 * i], values[i]);
        bounds[at][2 * i + 1] = Math.max(bounds[at][2 * i + 1], values[i]);
      }
      size = Math.max(size, at + 1);
    }

    private void halve() {
      for (int i = 0; i < PARTS_MAX / 2; i++) {
        bounds[i] = joined(bounds[2 * i], bounds[2 * i + 1]);
      }
      Arrays.fill(bounds, PARTS_MAX / 2, PARTS_MAX, null);
      everyS *= 2;
      size = (size + 1) / 2;
    }

    /** Bounds at a time in the step; after its end those of its end. */
    double[] at(double stepS) {
      int at = Math.min(size - 1, (int) (stepS / everyS));
      while (at > 0 && bounds[at] == null) {
        at--;
      }
      while (bounds[at] == null) {
        at++;
      }
      return bounds[at];
    }
  }

  private final Map<Key, Parts> steps = new LinkedHashMap<>();

  /** Takes a tick. */
  void look(BenchRun run) {
    ControlState state = run.state();
    Readings readings = run.readings();
    if (state.phase() != BatchState.RUNNING
        || state.stepVisit() == 0
        || !readings.isGood(Channel.SAMPLE_TEMPERATURE)
        || !readings.isGood(Channel.VESSEL_PRESSURE)) {
      return;
    }
    double[] values = {
      readings.value(Channel.SAMPLE_TEMPERATURE),
      readings.value(Channel.VESSEL_PRESSURE),
      state.gas().uptakeMol()
    };
    steps
        .computeIfAbsent(new Key(state.stepPosition(), state.stepVisit()), key -> new Parts())
        .add(state.stepS(), values);
  }

  private static double[] joined(double[] one, double[] other) {
    if (one == null || other == null) {
      return one == null ? other : one;
    }
    double[] both = new double[BOUNDS];
    for (int i = 0; i < BOUNDS; i += 2) {
      both[i] = Math.min(one[i], other[i]);
      both[i + 1] = Math.max(one[i + 1], other[i + 1]);
    }
    return both;
  }

  /**
   * The band around several rehearsals of one recipe.
   *
   * @param roomOf how far beyond what they did a value may go: K, Pa and mol
   */
  static ExpectedCourse band(List<ExpectedTrace> traces, double[] roomOf) {
    List<Segment> segments = new ArrayList<>();
    for (Key key : traces.get(0).steps.keySet()) {
      List<Parts> all = traces.stream().map(t -> t.steps.get(key)).filter(p -> p != null).toList();
      double everyS = all.stream().mapToDouble(p -> p.everyS).max().orElseThrow();
      double endS = all.stream().mapToDouble(p -> p.everyS * p.size).max().orElseThrow();
      int size = Math.max(1, (int) Math.ceil(endS / everyS - 1e-9));
      double[][] bounds = new double[size][];
      for (int i = 0; i < size; i++) {
        for (Parts parts : all) {
          // The parts beside it, too: the same may happen a little sooner or later.
          for (int beside = -1; beside <= 1; beside++) {
            double atS = Math.max(0, (i + beside) * everyS);
            bounds[i] = joined(bounds[i], parts.at(atS));
            bounds[i] = joined(bounds[i], parts.at(atS + everyS * 0.999));
          }
        }
        bounds[i] = widened(bounds[i], roomOf);
      }
      segments.add(new Segment(key.position(), key.visit(), everyS, bounds));
    }
    return new ExpectedCourse(segments);
  }

  private static double[] widened(double[] bounds, double[] roomOf) {
    double[] wide = bounds.clone();
    for (int i = 0; i < roomOf.length; i++) {
      wide[2 * i] -= roomOf[i];
      wide[2 * i + 1] += roomOf[i];
    }
    // An account may read a little below nothing taken up; a band that says so would be odd.
    wide[UPTAKE_LOW] = Math.max(0, wide[UPTAKE_LOW]);
    return wide;
  }
}
