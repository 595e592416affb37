package tarnish.shared.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.regex.Pattern;
import tarnish.shared.estimate.Estimate;

/** The one place where numbers with units are read and printed. Inside there is only SI. */
public final class Quantities {
  private static final Pattern RANGE = Pattern.compile("\\s+to\\s+");
  private static final Pattern PLUS_MINUS = Pattern.compile("\\s*(?:±|\\+/-)\\s*");

  private Quantities() {}

  /** A span from one value to another, both in SI units; {@code from} is less than {@code to}. */
  public record Range(double from, double to) {}

  /**
   * Reads a quantity as people write it, e.g. {@code 150 °C}, {@code 1 h 30 min}.
   *
   * @return its finite value in SI units
   * @throws NotAQuantity if the text is anything else
   */
  public static double parse(String text, Dimension dimension) {
    return new QuantityParser(text, dimension).parse();
  }

  /**
   * Reads two quantities, e.g. {@code 60 s to 30 min}.
   *
   * @throws NotAQuantity if the text is anything else, or runs downwards
   */
  public static Range parseRange(String text, Dimension dimension) {
    String[] ends = split(text, RANGE);
    if (ends.length != 2) {
      throw new NotAQuantity(
          "'" + shortened(text) + "'",
          "two values with 'to' between them, each " + QuantityParser.expectation(dimension));
    }
    double from = parse(ends[0], dimension);
    double to = parse(ends[1], dimension);
    if (!(from < to)) {
      throw new NotAQuantity(
          "'" + shortened(text) + "'", "the lower value first, then 'to', then the higher one");
    }
    return new Range(from, to);
  }

  /**
   * Reads a quantity with its standard uncertainty, e.g. {@code 4.000 g ± 1 mg}; {@code +/-} serves
   * where the keyboard has no ±.
   *
   * @throws NotAQuantity if the text is anything else
   */
  public static Estimate parseEstimate(String text, Dimension dimension) {
    String[] parts = split(text, PLUS_MINUS);
    if (parts.length != 2) {
      throw new NotAQuantity(
          "'" + shortened(text) + "'",
          "a value with '±' and its standard uncertainty, each "
              + QuantityParser.expectation(dimension));
    }
    double value = parse(parts[0], dimension);
    double uncertainty = parse(parts[1], dimension.ofDifference());
    if (!(uncertainty >= 0)) {
      throw new NotAQuantity("'" + shortened(text) + "'", "a standard uncertainty of 0 or more");
    }
    return new Estimate(value, uncertainty);
  }

  /**
   * Prints a finite SI value in a unit with a fixed number of decimals, e.g. {@code 900.0 mbar}.
   */
  public static String print(double valueSi, Unit unit, int decimals) {
    BigDecimal number = unit.decimalOf(finite(valueSi)).setScale(decimals, RoundingMode.HALF_EVEN);
    return withUnit(number.toPlainString(), unit);
  }

  /**
   * Prints a finite SI value in a unit with as many decimals as it takes, at most 12 significant
   * digits, e.g. {@code 1.5 bar}.
   */
  public static String printShort(double valueSi, Unit unit) {
    BigDecimal number = unit.decimalOf(finite(valueSi)).round(new MathContext(12));
    return withUnit(plainWithoutEndZeros(number), unit);
  }

  /**
   * Prints a value with its standard uncertainty: the uncertainty to two significant digits, the
   * value to the same place (JCGM 100:2008, 7.2.6), e.g. {@code (4.902 ± 0.012) g}.
   */
  public static String printEstimate(Estimate estimate, Unit unit) {
    BigDecimal value = unit.decimalOf(estimate.value());
    if (estimate.standardUncertainty() == 0) {
      return printShort(estimate.value(), unit);
    }
    // The uncertainty is a difference: a scale's zero point must not enter.
    BigDecimal uncertainty =
        new BigDecimal(estimate.standardUncertainty())
            .multiply(unit.perSi())
            .round(new MathContext(2, RoundingMode.HALF_UP));
    String numbers =
        value.setScale(uncertainty.scale(), RoundingMode.HALF_EVEN).toPlainString()
            + " ± "
            + uncertainty.toPlainString();
    return unit.symbol().isEmpty() ? numbers : "(" + numbers + ") " + unit.symbol();
  }

  /** Prints a finite time in s by its two largest units, e.g. {@code 1 h 12 min}. */
  public static String printDuration(double seconds) {
    return DurationPrinter.print(finite(seconds));
  }

  private static double finite(double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("only a finite value can be printed, got " + value);
    }
    return value;
  }

  private static String withUnit(String number, Unit unit) {
    return unit.symbol().isEmpty() ? number : number + " " + unit.symbol();
  }

  static String plainWithoutEndZeros(BigDecimal number) {
    return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
  }

  /** A text too long to be two quantities is not searched: its length may be meant to hurt. */
  private static String[] split(String text, Pattern between) {
    return text.length() > 200 ? new String[0] : between.split(text.strip(), -1);
  }

  private static String shortened(String text) {
    return text.length() <= 60 ? text : text.substring(0, 60) + "…";
  }
}
