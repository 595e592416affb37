package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/**
 * Compares a batch with what was expected of it and tells, once, when it leaves the band, and when
 * it comes back. It only tells: nothing is switched by it.
 *
 * <p>A step that was interrupted is not judged any more: it cannot be where it was expected.
 *
 * @param course expected; null where none is
 * @param segment of the present step; null where nothing is expected of it
 * @param position of the present step
 * @param visits how many times each step was begun
 * @param undisturbed whether the present step ran without a break so far
 * @param outsideS for how long a value has been outside; it runs back inside
 * @param told whether that was told
 */
record Expectation(
    ExpectedCourse course,
    ExpectedCourse.Segment segment,
    int position,
    int[] visits,
    boolean undisturbed,
    double outsideS,
    boolean told) {
  static final Expectation NONE = new Expectation(null, null, -1, new int[0], false, 0, false);

  /** Outside for longer than this is told, in s: a passing disturbance is not worth a word. */
  private static final double TELL_AFTER_S = 120;

  private static final String[] NAMES = {"sample temperature", "vessel pressure", "uptake"};

  /** Nothing expected, but visits are counted from the first step on. */
  static Expectation of(int programSize) {
    return new Expectation(null, null, -1, new int[programSize], false, 0, false);
  }

  Expectation expecting(ExpectedCourse given) {
    ExpectedCourse.Segment now = position < 0 ? null : given.segment(position, visits[position]);
    return new Expectation(given, now, position, visits, undisturbed, 0, false);
  }

  /** One tick, after the step that is running has done its part. */
  Expectation step(TickWork work) {
    if (work.phase != BatchState.RUNNING || work.run == null) {
      return undisturbed
          ? new Expectation(course, segment, position, visits, work.run == null, 0, told)
          : this;
    }
    int now = work.cursor.position();
    if (now != position || work.stepS <= work.tickS) {
      return begun(now);
    }
    if (segment == null || !undisturbed || !isJudged(work) || !work.believable()) {
      return this;
    }
    int outside = outside(work);
    double seconds =
        outside >= 0
            ? StrictMath.min(TELL_AFTER_S, outsideS + work.tickS)
            : StrictMath.max(0, outsideS - work.tickS);
    if (outside >= 0 && !told && seconds >= TELL_AFTER_S) {
      work.event(new Event.Advisory(words(outside, work)));
      return new Expectation(course, segment, position, visits, true, seconds, true);
    }
    if (told && seconds == 0) {
      work.event(new Event.Advisory("The batch is back where it was expected."));
      return new Expectation(course, segment, position, visits, true, 0, false);
    }
    return seconds == outsideS
        ? this
        : new Expectation(course, segment, position, visits, true, seconds, told);
  }

  private Expectation begun(int now) {
    int[] counted = visits.clone();
    counted[now]++;
    ExpectedCourse.Segment next = course == null ? null : course.segment(now, counted[now]);
    return new Expectation(course, next, now, counted, true, 0, told);
  }

  /** While gas is exchanged or a vessel is open, seconds decide: that is not worth comparing. */
  private static boolean isJudged(TickWork work) {
    Step step = work.doing().step();
    return step instanceof Step.Dose
        || step instanceof Step.Ramp
        || step instanceof Step.Soak
        || step instanceof Step.Cool;
  }

  /** The value that is outside, or -1. */
  private int outside(TickWork work) {
    double[] bounds = segment.at(work.stepS);
    if (isOutside(work.sampleK(), bounds, 0)) {
      return 0;
    }
    if (isOutside(work.pressurePa(), bounds, 1)) {
      return 1;
    }
    // The band begins at 0; an account that noise has made a little negative is not outside of it.
    return isOutside(StrictMath.max(0, work.gas.uptakeMol()), bounds, 2) ? 2 : -1;
  }

  private static boolean isOutside(double value, double[] bounds, int which) {
    return value < bounds[2 * which] || value > bounds[2 * which + 1];
  }

  private String words(int which, TickWork work) {
    double[] bounds = segment.at(work.stepS);
    double low = bounds[2 * which];
    double high = bounds[2 * which + 1];
    double value =
        which == 0 ? work.sampleK() : which == 1 ? work.pressurePa() : work.gas.uptakeMol();
    return "Not as rehearsed: the "
        + NAMES[which]
        + " is "
        + print(which, value)
        + ", expected "
        + print(which, low)
        + " to "
        + print(which, high)
        + ". Look whether the charge, the oven or the gas is other than the recipe says.";
  }

  private static String print(int which, double value) {
    return switch (which) {
      case 0 -> Words.temperature(value);
      case 1 -> Words.pressure(value);
      default -> String.format(java.util.Locale.ROOT, "%.2f mmol", value * 1e3);
    };
  }
}
