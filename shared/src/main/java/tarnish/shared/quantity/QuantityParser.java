package tarnish.shared.quantity;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Reads one number with its unit. Only {@link Quantities} calls it. */
final class QuantityParser {
  private static final int LONGEST_TEXT = 100;

  /** What looks like an attempt at a number, right or wrong, and the rest. */
  private static final Pattern NUMBER_AND_REST =
      Pattern.compile("([+-]?[0-9.,]+(?:[eE][+-]?[0-9]+)?)\\s*(.*)", Pattern.DOTALL);

  private static final Pattern NUMBER =
      Pattern.compile("[+-]?[0-9]{1,30}(?:\\.[0-9]{1,30})?(?:[eE][+-]?[0-9]{1,3})?");

  private static final Pattern TIME_PART =
      Pattern.compile("([+-]?[0-9][0-9.,eE+-]*\\s*[a-z]+)\\s*");

  private final String text;
  private final Dimension dimension;

  QuantityParser(String written, Dimension dimension) {
    // A copied text may carry a no-break or a narrow no-break space before the unit.
    this.text = written.replace('\u00a0', ' ').replace('\u202f', ' ').strip();
    this.dimension = dimension;
  }

  double parse() {
    if (text.isEmpty()) {
      throw wrong("nothing");
    }
    if (text.length() > LONGEST_TEXT) {
      throw wrong("a text of " + text.length() + " characters");
    }
    return dimension == Dimension.TIME ? parseTime() : parseOne(text);
  }

  private double parseOne(String part) {
    Matcher matcher = NUMBER_AND_REST.matcher(part);
    if (!matcher.matches()) {
      throw wrong("'" + part + "'");
    }
    String number = matcher.group(1);
    if (number.indexOf(',') >= 0) {
      throw new NotAQuantity(
          "'" + part + "' with a comma",
          "a number with a decimal point, e.g. " + dimension.example());
    }
    if (!NUMBER.matcher(number).matches()) {
      throw wrong("'" + part + "', in which '" + number + "' is not a number");
    }
    double value = unit(part, matcher.group(2).strip()).toSi(new BigDecimal(number));
    if (!Double.isFinite(value)) {
      throw wrong("'" + part + "', which is too large");
    }
    return value;
  }

  private Unit unit(String part, String symbol) {
    Optional<Unit> unit = Unit.find(symbol, dimension);
    if (unit.isPresent()) {
      return unit.get();
    }
    if (symbol.isEmpty()) {
      throw wrong("'" + part + "' without a unit");
    }
    if (symbol.startsWith("°C") || symbol.startsWith("degC")) {
      if (dimension == Dimension.TEMPERATURE_DIFFERENCE) {
        throw new NotAQuantity(
            "'" + part + "'",
            "a temperature difference in K, e.g. 3 K: °C names a point on a scale, not a difference");
      }
      if (dimension == Dimension.TEMPERATURE_RATE) {
        throw new NotAQuantity(
            "'" + part + "'",
            "a temperature rate in K/min, K/h or K/s, e.g. 5 K/min: differences are in K, not °C");
      }
    }
    throw wrong(
        otherDimension(symbol)
            .map(other -> "'" + part + "', which is " + other.words())
            .orElse("'" + part + "' with the unknown unit '" + symbol + "'"));
  }

  private static Optional<Dimension> otherDimension(String symbol) {
    return Arrays.stream(Dimension.values())
        .filter(other -> Unit.find(symbol, other).isPresent())
        .findFirst();
  }

  /** One or more parts, each in a smaller unit than the one before: 1 h 30 min. */
  private double parseTime() {
    Matcher matcher = TIME_PART.matcher(text);
    int end = 0;
    double sumS = 0;
    double lastUnitS = Double.POSITIVE_INFINITY;
    while (matcher.find() && matcher.start() == end) {
      String part = matcher.group(1);
      double partS = parseOne(part);
      double unitS = unit(part, part.replaceAll("^.*?([a-z]+)$", "$1")).toSi(BigDecimal.ONE);
      if (!(unitS < lastUnitS) || (end > 0 && !(partS >= 0))) {
        throw wrong("'" + text + "'");
      }
      sumS += partS;
      lastUnitS = unitS;
      end = matcher.end();
    }
    if (end == text.length()) {
      return sumS;
    }
    parseOne(text.substring(end)); // Says what is wrong with the rest.
    throw wrong("'" + text + "'");
  }

  private NotAQuantity wrong(String found) {
    return new NotAQuantity(found, expectation(dimension));
  }

  static String expectation(Dimension dimension) {
    List<Unit> units = dimension.units();
    String symbols =
        units.stream()
            .map(Unit::symbol)
            .collect(Collectors.joining(", "))
            .replaceFirst(", ([^,]+)$", " or $1");
    String in = symbols.isEmpty() ? "" : " in " + symbols;
    return dimension.words() + in + ", e.g. " + dimension.example();
  }
}
