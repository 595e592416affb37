package tarnish.shared.quantity;

/** A text that is not the quantity it should be. Its message is for the person who wrote it. */
public final class NotAQuantity extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final String found;
  private final String expected;

  public NotAQuantity(String found, String expected) {
    super("found " + found + ", expected " + expected);
    this.found = found;
    this.expected = expected;
  }

  /** What was found, to follow the word "found". */
  public String found() {
    return found;
  }

  /** What would have been right, to follow the word "expected". */
  public String expected() {
    return expected;
  }
}
