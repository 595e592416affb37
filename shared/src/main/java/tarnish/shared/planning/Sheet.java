package tarnish.shared.planning;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;

/** Collects the lines of one planning sheet. */
final class Sheet {
  /** Room temperature for amounts of gas and cold parts, 20 °C: an assumption that is printed. */
  static final double ROOM_K = 293.15;

  private final List<PlanLine> lines = new ArrayList<>();

  List<PlanLine> lines() {
    return List.copyOf(lines);
  }

  void line(Verdict verdict, String what, String value, Number number, String source) {
    lines.add(new PlanLine(what, value, Optional.of(number), source, verdict));
  }

  void ok(String what, String value, Number number, String source) {
    line(Verdict.OK, what, value, number, source);
  }

  void words(Verdict verdict, String what, String value, String source) {
    lines.add(new PlanLine(what, value, Optional.empty(), source, verdict));
  }

  /** A value with this many significant digits and its unit. */
  static String print(double valueSi, Unit unit, int digits) {
    BigDecimal rounded = new BigDecimal(unit.of(valueSi)).round(new MathContext(digits));
    return Quantities.print(
        unit.toSi(rounded.doubleValue()), unit, StrictMath.max(0, rounded.scale()));
  }

  /** A number with this many significant digits. */
  static String digits(double value, int digits) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(digits));
    return rounded.setScale(StrictMath.max(0, rounded.scale())).toPlainString();
  }

  static Verdict okIf(boolean fits) {
    return fits ? Verdict.OK : Verdict.WARNING;
  }
}
