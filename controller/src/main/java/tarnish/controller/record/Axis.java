package tarnish.controller.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Round numbers along an axis from {@code least} to {@code greatest}. */
record Axis(double least, double greatest, double step, int decimals) {
  private static final double[] HOURS = {0.05, 0.1, 0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 96, 240};

  /** What may stick out at an end without a further step, in steps: noise around zero. */
  private static final double SLACK = 0.05;

  /** Covers the values, with steps of 1, 2 or 5 times a power of ten. */
  static Axis covering(double least, double greatest, int stepsMax) {
    double span = StrictMath.max(greatest - least, 1e-9);
    double power = StrictMath.pow(10, StrictMath.floor(StrictMath.log10(span / stepsMax)));
    double step = power;
    for (double times : new double[] {1, 2, 5, 10}) {
      step = times * power;
      if (span / step <= stepsMax) {
        break;
      }
    }
    int decimals = (int) StrictMath.max(0, -StrictMath.floor(StrictMath.log10(step * (1 + 1e-9))));
    return new Axis(
        StrictMath.floor(least / step + SLACK) * step,
        StrictMath.ceil(greatest / step - SLACK) * step,
        step,
        decimals);
  }

  /** Hours from 0 to the end of a batch, not rounded up. */
  static Axis hours(double endHours, int stepsMax) {
    double step = HOURS[HOURS.length - 1];
    for (double each : HOURS) {
      if (endHours / each <= stepsMax) {
        step = each;
        break;
      }
    }
    return new Axis(0, endHours, step, step < 0.1 ? 2 : step < 1 ? (step == 0.25 ? 2 : 1) : 0);
  }

  List<Double> ticks() {
    List<Double> ticks = new ArrayList<>();
    long first = (long) StrictMath.ceil(least / step - 1e-9);
    for (long i = first; i * step <= greatest + step * 1e-6; i++) {
      ticks.add(i * step);
    }
    return ticks;
  }

  String label(double value) {
    String words = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return words.startsWith("-") ? "−" + words.substring(1) : words;
  }
}
