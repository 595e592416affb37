package tarnish.shared.chemistry;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Reads one formula by recursive descent.
 *
 * <pre>
 * formula = units { ("·" | "*") [count] units }
 * units   = unit { unit }
 * unit    = (symbol | "(" units ")" | "[" units "]") [count]
 * </pre>
 */
final class FormulaReader {
  private static final int LONGEST = 200;
  private static final int LARGEST_COUNT = 9_999;
  private static final int MOST_ATOMS = 1_000_000;
  private static final char END = '\0';
  private static final String UNIT = "an element symbol (a capital letter first) or (";

  private final String text;
  private int next;

  FormulaReader(String text) {
    this.text = text;
  }

  Map<String, Integer> read() {
    if (text.length() > LONGEST) {
      throw wrong(LONGEST, "more text", "at most " + LONGEST + " characters");
    }
    Map<String, Integer> atoms = new LinkedHashMap<>();
    add(atoms, units(), 1, 0);
    while (isDot(peek())) {
      next++;
      int at = next;
      int times = count();
      add(atoms, units(), times, at);
    }
    if (next < text.length()) {
      throw wrong(next, found(), UNIT + ", a whole-number count, · or the end" + hint());
    }
    return atoms;
  }

  private Map<String, Integer> units() {
    Map<String, Integer> atoms = new LinkedHashMap<>();
    do {
      unit(atoms);
    } while (isCapital(peek()) || closing(peek()) != END);
    return atoms;
  }

  private void unit(Map<String, Integer> atoms) {
    int at = next;
    char closing = closing(peek());
    Map<String, Integer> inner;
    if (closing == END) {
      inner = Map.of(symbol(), 1);
    } else {
      next++;
      inner = units();
      if (peek() != closing) {
        throw wrong(
            next,
            found(),
            closing + " to close the group opened at character " + (at + 1) + hint());
      }
      next++;
    }
    add(atoms, inner, count(), at);
  }

  private String symbol() {
    int start = next;
    if (!isCapital(peek())) {
      throw wrong(start, found(), UNIT + hint());
    }
    next++;
    while (peek() >= 'a' && peek() <= 'z') {
      next++;
    }
    String symbol = text.substring(start, next);
    if (!AtomicWeights.knows(symbol)) {
      throw wrong(start, quoted(symbol), "the symbol of a known element" + nearest(symbol));
    }
    return symbol;
  }

  /** The whole number that comes next, or 1 where none does. */
  private int count() {
    int start = next;
    int count = 0;
    while (digit(peek()) >= 0) {
      count = 10 * count + digit(peek());
      if (count > LARGEST_COUNT) {
        throw wrong(start, "a greater count", "a count of at most " + LARGEST_COUNT);
      }
      next++;
    }
    if (start == next) {
      return 1;
    }
    if (count == 0) {
      throw wrong(start, "0", "a count of 1 or more, or no element at all");
    }
    if (peek() == '.' || peek() == ',') {
      throw wrong(
          next, found(), "a whole-number count (write Fe19O20 for Fe0.95O); hydrates take · or *");
    }
    return count;
  }

  private void add(Map<String, Integer> atoms, Map<String, Integer> more, int times, int at) {
    for (Map.Entry<String, Integer> entry : more.entrySet()) {
      long total = atoms.getOrDefault(entry.getKey(), 0) + (long) times * entry.getValue();
      if (total > MOST_ATOMS) {
        throw wrong(at, total + " atoms of " + entry.getKey(), "at most " + MOST_ATOMS);
      }
      atoms.put(entry.getKey(), (int) total);
    }
  }

  private char peek() {
    return next < text.length() ? text.charAt(next) : END;
  }

  private static boolean isCapital(char c) {
    return c >= 'A' && c <= 'Z';
  }

  private static boolean isDot(char c) {
    return c == '·' || c == '*';
  }

  /** The bracket that closes the one given, or {@link #END} for any other character. */
  private static char closing(char opening) {
    return opening == '(' ? ')' : opening == '[' ? ']' : END;
  }

  /** The value of a digit, plain or subscript, else -1. */
  private static int digit(char c) {
    if (c >= '0' && c <= '9') {
      return c - '0';
    }
    return c >= '₀' && c <= '₉' ? c - '₀' : -1;
  }

  private FormulaException wrong(int index, String found, String expected) {
    return new FormulaException(text, index + 1, found, expected);
  }

  private String found() {
    return next < text.length() ? quoted(text.substring(next, next + 1)) : "the end";
  }

  /** A small letter where a symbol should begin is most often a symbol with a lost capital. */
  private String hint() {
    char c = peek();
    if (!(c >= 'a' && c <= 'z')) {
      return "";
    }
    int end = next;
    while (end < text.length() && end < next + 2 && Character.isLowerCase(text.charAt(end))) {
      end++;
    }
    return nearest(text.substring(next, end));
  }

  private static String nearest(String written) {
    return AtomicWeights.nearest(written).map(n -> "; did you mean " + n + "?").orElse("");
  }

  private static String quoted(String found) {
    return '"' + found + '"';
  }
}
