package tarnish.shared.planning;

import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.quantity.Quantities;

/** How long each step takes. */
final class DurationLines {
  private static final String FROM_RECIPE = "by the recipe; rough figures for pumps and cooling";

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
          words(time.seconds(), time.atLeast()),
          new Number(time.seconds(), "s"),
          (time.passes() > 1 ? "all of up to " + time.passes() + " passes; " : "")
              + (time.atLeast() ? "uptake or a person decides when it ends" : FROM_RECIPE));
    }
    sheet.ok(
        "all steps",
        words(total, atLeast),
        new Number(total, "s"),
        "without pauses and waiting for a person");
  }

  private static String words(double seconds, boolean atLeast) {
    if (seconds == 0 && atLeast) {
      return "as long as the person takes";
    }
    return (atLeast ? "at least " : "about ") + Quantities.printDuration(seconds);
  }
}
