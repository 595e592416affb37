package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How a rehearsal expects a batch to go: for each step, as time in that step passes, between which
 * values sample temperature, vessel pressure and uptake should lie. Told by step, because people
 * and pauses move everything that comes later. Immutable.
 */
public final class ExpectedCourse {
  /** Values that are followed: sample in K, vessel pressure in Pa, uptake in mol. */
  public static final int VALUES = 3;

  private static final int PER_POINT = 2 * VALUES;

  /**
   * One step that is done once.
   *
   * @param position of the step in the program
   * @param visit how many times it was begun, from 1
   * @param everyS time between points
   * @param bounds of each point: lowest and highest of each value
   */
  public record Segment(int position, int visit, double everyS, double[][] bounds) {
    public double durationS() {
      return everyS * bounds.length;
    }

    /** Bounds at a time in the step; after its end those of its end. */
    double[] at(double stepS) {
      int point = (int) StrictMath.min(bounds.length - 1.0, stepS / everyS);
      return bounds[StrictMath.max(0, point)];
    }
  }

  private final List<Segment> segments;

  public ExpectedCourse(List<Segment> segments) {
    this.segments = List.copyOf(segments);
  }

  public List<Segment> segments() {
    return segments;
  }

  /** The segment of a step; of its last visit where it is visited more often than expected. */
  Segment segment(int position, int visit) {
    Segment found = null;
    for (Segment each : segments) {
      if (each.position() == position && each.visit() <= visit) {
        found = each;
      }
    }
    return found;
  }

  /** As text for the record: a line per segment. */
  public String text() {
    StringBuilder text = new StringBuilder();
    for (Segment segment : segments) {
      text.append(
          String.format(
              Locale.ROOT, "%d %d %.3f", segment.position(), segment.visit(), segment.everyS()));
      for (double[] point : segment.bounds()) {
        text.append(
            String.format(
                Locale.ROOT,
                " %.1f %.1f %.0f %.0f %.3e %.3e",
                point[0],
                point[1],
                point[2],
                point[3],
                point[4],
                point[5]));
      }
      text.append('\n');
    }
    return text.toString();
  }

  /**
   * Reads {@link #text}.
   *
   * @throws IllegalArgumentException if it is no such text
   */
  public static ExpectedCourse parse(String text) {
    List<Segment> segments = new ArrayList<>();
    for (String line : text.split("\n")) {
      if (line.isBlank()) {
        continue;
      }
      String[] words = line.trim().split(" ");
      int points = (words.length - 3) / PER_POINT;
      if (points < 1 || words.length != 3 + points * PER_POINT) {
        throw new IllegalArgumentException("an expected course is cut off in '" + line + "'");
      }
      double[][] bounds = new double[points][PER_POINT];
      for (int i = 0; i < points * PER_POINT; i++) {
        bounds[i / PER_POINT][i % PER_POINT] = Double.parseDouble(words[3 + i]);
      }
      double everyS = Double.parseDouble(words[2]);
      if (!(everyS > 0)) {
        throw new IllegalArgumentException("an expected course needs time to pass: '" + line + "'");
      }
      segments.add(
          new Segment(Integer.parseInt(words[0]), Integer.parseInt(words[1]), everyS, bounds));
    }
    return new ExpectedCourse(segments);
  }
}
