package tarnish.shared.chemistry;

/** A chemical formula that cannot be read: where, what stood there and what was expected. */
public final class FormulaException extends IllegalArgumentException {
  private static final long serialVersionUID = 1;

  private final int position;
  private final String expected;

  FormulaException(String formula, int position, String found, String expected) {
    super(
        "formula \"%s\", character %d: found %s, expected %s"
            .formatted(formula, position, found, expected));
    this.position = position;
    this.expected = expected;
  }

  /** The character at which reading failed, counted from 1; one more than the length at the end. */
  public int position() {
    return position;
  }

  /** What could have stood there, in words. */
  public String expected() {
    return expected;
  }
}
