package tarnish.shared.recipe;

import java.util.OptionalDouble;

/**
 * A value that a person is asked for.
 *
 * @param name as shown
 * @param kind what it is
 * @param fallback answer of the stand-in operator in a rehearsal; empty: a mass is read from the
 *     simulated balance, a number is refused by the checker, a remark is left empty
 */
public record Question(String name, Kind kind, OptionalDouble fallback) {

  /** What a person is asked for. */
  public enum Kind {
    /** Mass of the whole solid in the vessel, in kg; enters the ledger. */
    MASS("mass"),
    /** Free words. */
    REMARK("remark");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
