package tarnish.controller.control;

/**
 * A row that a rig cannot have, because it lacks what would see the cause.
 *
 * @param id of the row
 * @param why what is missing
 * @param remains what protects in its place
 */
public record MissingRow(String id, String why, String remains) {
  /** One line for a person. */
  public String sentence() {
    return id + ": not available on this rig: " + why + "; remaining protection: " + remains;
  }
}
