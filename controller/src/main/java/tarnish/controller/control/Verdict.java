package tarnish.controller.control;

/**
 * What an interlock's cause looks like in one tick. A condition that cannot be judged is told apart
 * from one that does not hold, so that a sensor which fails in the middle of an excursion does not
 * stop the clock of the excursion.
 */
enum Verdict {
  PRESENT,
  ABSENT,
  UNKNOWN;

  static Verdict of(boolean present) {
    return present ? PRESENT : ABSENT;
  }
}
