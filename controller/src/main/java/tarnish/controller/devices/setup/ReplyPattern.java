package tarnish.controller.devices.setup;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

/**
 * What the answer of a line instrument must look like: plain text with <code>{value}</code> where
 * the number stands and <code>{any}</code> where anything may stand, up to the text that follows.
 *
 * <p>Numbers are the decimal numeric responses NR1, NR2 and NR3 of IEEE 488.2, with leading blanks
 * allowed. Blanks at both ends of an answer do not matter.
 */
public final class ReplyPattern {
  private static final String VALUE = "{value}";
  private static final String ANY = "{any}";
  private static final Pattern NUMBER =
      Pattern.compile(" {0,12}[+-]?(?:\\d{1,18}(?:\\.\\d{0,18})?|\\.\\d{1,18})(?:E[+-]?\\d{1,3})?");

  /**
   * What SCPI-1999 (vol. 1, 7.2.1.4 and 7.2.1.5) sends for infinity and for not a number; from
   * memory.
   */
  private static final double NO_NUMBER_FROM = 9.8e37;

  private final String text;
  private final List<String> pieces;

  /**
   * @throws IllegalArgumentException with words for the person if the pattern can match nothing for
   *     sure
   */
  public ReplyPattern(String text) {
    this.text = text;
    this.pieces = pieces(text);
    if (pieces.stream().filter(VALUE::equals).count() > 1) {
      throw new IllegalArgumentException("more than one {value}");
    }
    for (int i = 1; i < pieces.size(); i++) {
      if (isMark(pieces.get(i - 1)) && isMark(pieces.get(i))) {
        throw new IllegalArgumentException("two marks with nothing between them");
      }
    }
  }

  private static boolean isMark(String piece) {
    return piece.equals(VALUE) || piece.equals(ANY);
  }

  private static List<String> pieces(String text) {
    List<String> pieces = new ArrayList<>();
    int at = 0;
    while (at < text.length()) {
      int open = text.indexOf('{', at);
      int close = open < 0 ? -1 : text.indexOf('}', open);
      if (close < 0) {
        pieces.add(text.substring(at));
        return pieces;
      }
      if (open > at) {
        pieces.add(text.substring(at, open));
      }
      String mark = text.substring(open, close + 1);
      if (!isMark(mark)) {
        throw new IllegalArgumentException("the unknown mark " + mark);
      }
      pieces.add(mark);
      at = close + 1;
    }
    return pieces;
  }

  public boolean hasValue() {
    return pieces.contains(VALUE);
  }

  /** Whether the whole answer fits. */
  public boolean fits(String answer) {
    return matches(answer.strip(), new double[1]);
  }

  /** The number in a fitting answer; empty if it does not fit or says that it has no number. */
  public OptionalDouble value(String answer) {
    double[] found = {Double.NaN};
    boolean fits = matches(answer.strip(), found);
    return fits && Math.abs(found[0]) < NO_NUMBER_FROM
        ? OptionalDouble.of(found[0])
        : OptionalDouble.empty();
  }

  private boolean matches(String answer, double[] found) {
    int at = 0;
    for (int i = 0; i < pieces.size(); i++) {
      String piece = pieces.get(i);
      if (!isMark(piece)) {
        String literal = i == 0 ? piece.stripLeading() : piece;
        literal = i == pieces.size() - 1 ? literal.stripTrailing() : literal;
        if (!answer.startsWith(literal, at)) {
          return false;
        }
        at += literal.length();
        continue;
      }
      String next = i + 1 < pieces.size() ? pieces.get(i + 1) : "";
      next = i + 2 == pieces.size() ? next.stripTrailing() : next;
      int end = next.isEmpty() ? answer.length() : answer.indexOf(next, at);
      if (end < 0 || (piece.equals(VALUE) && !take(answer.substring(at, end), found))) {
        return false;
      }
      at = end;
    }
    return at == answer.length();
  }

  private static boolean take(String number, double[] found) {
    if (!NUMBER.matcher(number.stripTrailing()).matches()) {
      return false;
    }
    found[0] = Double.parseDouble(number);
    return true;
  }

  @Override
  public String toString() {
    return text;
  }
}
