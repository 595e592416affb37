package tarnish.controller.files;

/**
 * What a rig file says about its proof tests.
 *
 * @param everyDays days after which a row must be proved again
 * @param whenOverdue what an overdue proof test costs
 */
public record ProofRule(int everyDays, WhenOverdue whenOverdue) {
  /** Common practice: a quarter, and a warning. */
  public static final ProofRule USUAL = new ProofRule(90, WhenOverdue.WARN);

  /** The words are those of a rig file. */
  public enum WhenOverdue {
    WARN("warn"),
    ATTENDED_ONLY("attended only");

    private final String words;

    WhenOverdue(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
