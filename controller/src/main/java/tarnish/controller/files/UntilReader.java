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
  private static final Pattern FINISHED =
      Pattern.compile("no uptake seen and mass steady over (\\d{1,2}) weighings");
  private static final String EXPECTED =
      "'conversion at least 98 %', 'uptake of a pass below 0.1 mmol' or"
          + " 'no uptake seen and mass steady over 3 weighings'";
  private static final int WEIGHINGS_MIN = 2;
  private static final int WEIGHINGS_MAX = 8;

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
    Matcher finished = FINISHED.matcher(text);
    if (finished.matches()) {
      int weighings = Integer.parseInt(finished.group(1));
      if (weighings < WEIGHINGS_MIN || weighings > WEIGHINGS_MAX) {
        fields.fault(
            "until",
            fields.written("until"),
            WEIGHINGS_MIN + " to " + WEIGHINGS_MAX + " weighings that agree");
      }
      return new RepeatUntil.Finished(weighings);
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
