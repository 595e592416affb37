package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Switch;

/**
 * One row of the cause-and-effect table.
 *
 * @param id names the alarm
 * @param cause when it acts
 * @param delayS how long the cause must last, in s
 * @param offDelayS how long it must be gone before it counts as gone, in s
 * @param suppressedIn kinds of steps in which it means nothing and is suppressed by design
 * @param effects switch bits whose permits fall while it acts or is latched
 * @param holdsBatch whether it also puts a running batch on hold
 * @param latching whether it stays until a person resets it
 * @param priority of its alarm
 * @param what happened, for the person
 * @param todo what to do now
 */
record InterlockRow(
    String id,
    Cause cause,
    double delayS,
    double offDelayS,
    Set<String> suppressedIn,
    int effects,
    boolean holdsBatch,
    boolean latching,
    Priority priority,
    String what,
    String todo) {

  /** Priority of an alarm, as in IEC 62682. */
  enum Priority {
    HIGH("high"),
    MEDIUM("medium"),
    LOW("low");

    private final String words;

    Priority(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** What the program does about it, for the person and the table. */
  String done() {
    List<String> off = new ArrayList<>();
    for (Switch each : Switch.values()) {
      if ((effects & bit(each)) != 0) {
        off.add(each.words());
      }
    }
    String outputs = off.isEmpty() ? "No output is withheld" : "Off: " + String.join(", ", off);
    return outputs + (holdsBatch ? "; the batch is held." : ".");
  }

  String limitWords(Limits limits) {
    return cause.limitWords(limits);
  }

  /** The limit that is in force now. */
  String limitWords(TickWork work) {
    return cause.limitWords(cause.inForce(work));
  }

  /** Whether it is suppressed by design now. */
  boolean isSuppressed(TickWork work) {
    if (suppressedIn.isEmpty()) {
      return false;
    }
    Instruction.Do doing = work.doing();
    return doing == null
        || work.phase != BatchState.RUNNING
        || suppressedIn.contains(doing.step().kind());
  }

  static int bit(Switch which) {
    return 1 << which.ordinal();
  }
}
