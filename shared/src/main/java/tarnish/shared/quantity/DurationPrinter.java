package tarnish.shared.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Prints times by their two largest units. Only {@link Quantities} calls it. */
final class DurationPrinter {
  private static final long[] UNIT_S = {86_400, 3_600, 60, 1};
  private static final String[] SYMBOLS = {"d", "h", "min", "s"};

  private DurationPrinter() {}

  static String print(double seconds) {
    String sign = seconds < 0 ? "-" : "";
    double lengthS = StrictMath.abs(seconds);
    String words = lengthS < 9.95 ? shortTime(lengthS) : longTime(lengthS);
    return words.equals("0 s") ? words : sign + words;
  }

  private static String shortTime(double lengthS) {
    BigDecimal tenths = new BigDecimal(lengthS).setScale(1, RoundingMode.HALF_EVEN);
    return Quantities.plainWithoutEndZeros(tenths) + " s";
  }

  private static String longTime(double lengthS) {
    // Rounding to the smaller unit may fill the larger one (59 min 59.7 s), so round first.
    int largest = largestUnit(StrictMath.rint(lengthS));
    long step = UNIT_S[StrictMath.min(largest + 1, UNIT_S.length - 1)];
    long rounded = (long) StrictMath.rint(lengthS / step) * step;
    largest = largestUnit(rounded);
    long whole = rounded / UNIT_S[largest];
    long rest = rounded % UNIT_S[largest];
    String words = whole + " " + SYMBOLS[largest];
    return rest == 0
        ? words
        : words + " " + rest / UNIT_S[largest + 1] + " " + SYMBOLS[largest + 1];
  }

  private static int largestUnit(double lengthS) {
    int index = 0;
    while (index < UNIT_S.length - 1 && lengthS < UNIT_S[index]) {
      index++;
    }
    return index;
  }
}
