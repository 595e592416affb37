package tarnish.controller.files;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.recipe.RepeatUntil;

/** Reads the condition that ends a repeat. */
final class UntilReader {
  private static final Pattern CONVERSION = Pattern.compile("conversion at least (.+)");
  private static final Pattern UPTAKE = Pattern.compile("uptake of a pass below (.+)");
  private static final String EXPECTED =
      "'conversion at least 98 %' or 'uptake of a pass below 0.1 mmol'";

  private UntilReader() {}

  static RepeatUntil read(Fields fields) {
    String text = fields.text("until", "conversion at least 98 %");
    Matcher conversion = CONVERSION.matcher(text);
    Matcher uptake = UPTAKE.matcher(text);
    if (conversion.matches()) {
      double fraction = value(fields, conversion.group(1), Bound.SOME_FRACTION);
      return new RepeatUntil.ConversionAtLeast(fraction);
    }
    if (uptake.matches()) {
      return new RepeatUntil.PassUptakeBelow(value(fields, uptake.group(1), Bound.AMOUNT));
    }
    if (!text.isEmpty()) {
      fields.fault("until", fields.written("until"), EXPECTED);
    }
    return new RepeatUntil.CountOnly();
  }

  private static double value(Fields fields, String text, Bound bound) {
    Dimension dimension = bound.dimension();
    try {
      double value = Quantities.parse(text, dimension);
      if (!bound.allows(value)) {
        fields.fault("until", fields.written("until"), bound.words());
      }
      return value;
    } catch (NotAQuantity wrong) {
      fields.fault("until", wrong.found(), wrong.expected());
      return Double.NaN;
    }
  }
}
