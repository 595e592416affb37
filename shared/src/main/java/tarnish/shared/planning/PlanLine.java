package tarnish.shared.planning;

import java.util.Optional;

/**
 * One line of a planning sheet.
 *
 * @param what is told
 * @param value with its unit, no more digits than are known
 * @param number the same for a program; empty where the value is words
 * @param source where it comes from, or what was assumed
 * @param verdict whether it may stay so
 */
public record PlanLine(
    String what, String value, Optional<Number> number, String source, Verdict verdict) {

  /** A value as a program wants it: unrounded, in an SI unit. */
  public record Number(double value, String unit) {}

  /** Whether a line may stay so. */
  public enum Verdict {
    OK("ok"),
    /** Something does not fit or is dangerous. */
    WARNING("warning"),
    /** Something that must be known is not known here. */
    OPEN("open");

    private final String words;

    Verdict(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
