package tarnish.controller.control;

/** State of a batch, as in the example procedural states of IEC 61512-1. */
public enum BatchState {
  IDLE("idle"),
  RUNNING("running"),
  PAUSING("pausing"),
  PAUSED("paused"),
  HOLDING("holding"),
  HELD("held"),
  RESTARTING("restarting"),
  STOPPING("stopping"),
  STOPPED("stopped"),
  ABORTING("aborting"),
  ABORTED("aborted"),
  COMPLETE("complete");

  private final String words;

  BatchState(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }

  /** Nothing but a reset leads out of a final state. */
  public boolean isFinal() {
    return this == STOPPED || this == ABORTED || this == COMPLETE;
  }

  public boolean mayPause() {
    return this == RUNNING;
  }

  public boolean mayResume() {
    return this == PAUSED;
  }

  public boolean mayHold() {
    return this == RUNNING || this == PAUSING || this == PAUSED || this == RESTARTING;
  }

  public boolean mayRestart() {
    return this == HELD;
  }

  public boolean mayStop() {
    return mayHold() || this == HOLDING || this == HELD;
  }

  public boolean mayAbort() {
    return mayStop() || this == STOPPING;
  }
}
