package tarnish.shared.recipe;

import java.util.OptionalDouble;

/**
 * What any step may say.
 *
 * @param title shown on the page; never empty
 * @param holdPressurePa oxygen is topped up to keep this absolute pressure; empty: not topped up
 * @param presence who must be there
 * @param timeLimitS longest time the step may take before the batch is held, in s
 */
public record StepCommon(
    String title, OptionalDouble holdPressurePa, Presence presence, OptionalDouble timeLimitS) {

  /** Who must be there during a step. */
  public enum Presence {
    ATTENDED("attended"),
    UNATTENDED("unattended");

    private final String words;

    Presence(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
