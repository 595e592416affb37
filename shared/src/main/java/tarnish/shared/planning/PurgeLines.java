package tarnish.shared.planning;

import tarnish.shared.gas.PressureSwing;
import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.RigDescription;

/** What each purge leaves of the air. */
final class PurgeLines {
  /** Dry air (US Standard Atmosphere 1976; from memory). */
  private static final double OXYGEN_IN_AIR = 0.20946;

  private PurgeLines() {}

  static void add(Sheet sheet, StepWalk walk, RigDescription rig, double wanted) {
    double own = rig.inert().oxygenFraction();
    for (StepWalk.Purge purge : walk.purges) {
      PressureSwing swing = new PressureSwing(purge.evacuateToPa(), purge.toPa());
      double residual = swing.residual(OXYGEN_IN_AIR, own, purge.cycles());
      boolean oxygenFollows = purge.dosesBefore() < walk.doses.size();
      sheet.line(
          Sheet.okIf(residual <= wanted || !oxygenFollows),
          purge.title() + ": oxygen left in the gas",
          fraction(residual),
          new Number(residual, "1"),
          "full of air before, "
              + purge.cycles()
              + (purge.cycles() == 1 ? " cycle " : " cycles ")
              + Sheet.print(purge.evacuateToPa(), Unit.MILLIBAR, 2)
              + " to "
              + Sheet.print(purge.toPa(), Unit.MILLIBAR, 3)
              + ", "
              + rig.inert().name()
              + " itself holds "
              + fraction(own)
              + (oxygenFollows ? "" : "; no dose follows"));
      if (oxygenFollows) {
        addCycles(sheet, purge, swing, own, wanted);
      }
    }
    if (!walk.doses.isEmpty() && !walk.cleanBeforeOxygen) {
      sheet.words(
          Verdict.WARNING,
          "air before the first oxygen",
          "never removed",
          "the recipe neither evacuates nor purges before it doses");
    }
  }

  private static void addCycles(
      Sheet sheet, StepWalk.Purge purge, PressureSwing swing, double own, double wanted) {
    String what = purge.title() + ": cycles needed";
    if (own >= wanted) {
      sheet.words(
          Verdict.WARNING,
          what,
          "none are enough",
          "the inert gas itself holds more than the wanted " + fraction(wanted));
      return;
    }
    int cycles = swing.cyclesFor(OXYGEN_IN_AIR, own, wanted);
    sheet.line(
        Sheet.okIf(purge.cycles() >= cycles),
        what,
        cycles + " for " + fraction(wanted),
        new Number(cycles, "1"),
        "the recipe makes " + purge.cycles() + "; moisture and pores need time, not cycles");
  }

  private static String fraction(double fraction) {
    return fraction < 1e-3
        ? Sheet.print(fraction, Unit.PARTS_PER_MILLION, 2)
        : Sheet.print(fraction, Unit.PERCENT, 2);
  }
}
