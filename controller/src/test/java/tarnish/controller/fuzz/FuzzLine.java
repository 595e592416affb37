package tarnish.controller.fuzz;

import java.nio.charset.StandardCharsets;
import java.util.OptionalDouble;
import tarnish.controller.devices.setup.ReplyPattern;

/**
 * Any text as the answer of a line instrument: up to the first line feed it is the pattern from the
 * rig file, behind it the answer.
 */
public final class FuzzLine {
  private static final ReplyPattern USUAL = new ReplyPattern("P={value} mbar");

  private FuzzLine() {}

  public static void fuzzerTestOneInput(byte[] data) {
    String text = new String(data, StandardCharsets.ISO_8859_1);
    int cut = StrictMath.max(0, text.indexOf('\n'));
    String answer = text.substring(cut);
    finite(USUAL, answer);
    ReplyPattern pattern;
    try {
      pattern = new ReplyPattern(text.substring(0, cut));
    } catch (IllegalArgumentException refused) {
      if (refused.getMessage() == null || refused.getMessage().isEmpty()) {
        throw new AssertionError("refused without words");
      }
      return;
    }
    finite(pattern, answer);
  }

  private static void finite(ReplyPattern pattern, String answer) {
    OptionalDouble value = pattern.hasValue() ? pattern.value(answer) : OptionalDouble.empty();
    boolean fits = pattern.fits(answer);
    if (value.isPresent() && !(fits && Double.isFinite(value.getAsDouble()))) {
      throw new AssertionError("'" + answer + "' as '" + pattern + "' gave " + value);
    }
  }
}
