package tarnish.shared.planning;

import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.quantity.Quantities;

/** How long each step takes. */
final class DurationLines {
  private static final double ROUND_FROM_S = 600;
  private static final double MINUTE_S = 60;

  private DurationLines() {}

  static void add(Sheet sheet, StepWalk walk) {
    double total = 0;
    boolean atLeast = false;
    int position = 0;
    for (StepWalk.Time time : walk.times) {
      position++;
      total += time.seconds();
      atLeast |= time.atLeast();
      sheet.ok(
          "step " + position + ", " + time.title(),
          words(time.seconds(), time.atLeast(), time.rough().isPresent()),
          new Number(time.seconds(), "s"),
          source(time));
    }
    sheet.ok(
        "all steps",
        words(total, atLeast, true),
        new Number(total, "s"),
        "without pauses and waiting for a person");
  }

  private static String source(StepWalk.Time time) {
    String passes = time.passes() > 1 ? "all of up to " + time.passes() + " passes; " : "";
    if (time.atLeast()) {
      return passes + "uptake or a person decides when it ends";
    }
    return passes + time.rough().orElse("by the recipe");
  }

  private static String words(double seconds, boolean atLeast, boolean rough) {
    if (seconds == 0 && atLeast) {
      return "as long as the person takes";
    }
    boolean fine = seconds < ROUND_FROM_S;
    String time =
        Quantities.printDuration(fine ? seconds : MINUTE_S * StrictMath.rint(seconds / MINUTE_S));
    return (atLeast ? "at least " : rough ? "about " : "") + time;
  }
}
