package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

/** What a file reader may give for any text: a value, or faults with places inside the text. */
final class HarmlessResult {
  private HarmlessResult() {}

  /** True for a value, false for faults; an assertion fails for anything else. */
  static boolean check(ReadResult<?> result, String text, String where) {
    String[] lines = text.split("\r\n|[\n\r]", -1);
    for (Fault fault : result.faults()) {
      assertTrue(fault.line() >= 1 && fault.line() <= lines.length, () -> fault + "\n" + where);
      String line = lines[fault.line() - 1];
      int columns = line.codePointCount(0, line.length());
      assertTrue(fault.column() >= 1 && fault.column() <= columns + 1, () -> fault + "\n" + where);
      assertTrue(fault.message().matches("(?s)found .+, expected .+"), () -> fault + "\n" + where);
    }
    // The stand-ins for unreadable values must never reach anybody.
    result
        .found()
        .ifPresent(v -> assertFalse(v.toString().contains("NaN"), () -> v + "\n" + where));
    return result.isGood();
  }
}
