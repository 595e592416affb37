package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;

/**
 * Something that a batch needs from a person, for those outside.
 *
 * @param kind what it is about
 * @param what it is, in a sentence
 * @param byS until when, in s since the batch began; negative where it is wanted now
 */
public record Need(Kind kind, String what, double byS) {
  public static final double NOW = -1;

  /** What a need is about. */
  public enum Kind {
    ALARM,
    QUESTION,
    PRESENCE,
    DECISION,
    VISIT
  }

  /** All needs, the most urgent first. */
  public static List<Need> of(Plan plan, ControlState state, Outlook outlook) {
    List<Need> needs = new ArrayList<>();
    alarms(plan, state, needs);
    if (state.question() != null && state.phase() == BatchState.RUNNING) {
      needs.add(new Need(Kind.QUESTION, "Answer: " + state.question().prompt(), NOW));
    } else if (PersonNeed.waits(plan, state)) {
      needs.add(new Need(Kind.PRESENCE, "Check in: the next step needs somebody there.", NOW));
    }
    decision(plan, state, needs);
    presence(state, needs);
    if (outlook.visit() != null
        && state.phase() == BatchState.RUNNING
        && state.question() == null) {
      Outlook.Visit visit = outlook.visit();
      boolean now = visit.atS() <= StrictMath.max(0, state.lastMillis()) / 1000.0;
      needs.add(
          new Need(Kind.VISIT, "Be at the bench: " + visit.title() + ".", now ? NOW : visit.atS()));
    }
    return needs;
  }

  private static void alarms(Plan plan, ControlState state, List<Need> needs) {
    for (int i = 0; i < plan.interlocks().size(); i++) {
      AlarmState now = state.alarms().state(i);
      InterlockRow row = plan.interlocks().get(i);
      if (now.isUnacknowledged()) {
        needs.add(new Need(Kind.ALARM, "Acknowledge " + row.id() + ": " + row.todo(), NOW));
      } else if (now.isLatchedOnly()) {
        needs.add(new Need(Kind.ALARM, "Reset " + row.id() + " with a reason.", NOW));
      }
    }
  }

  private static void decision(Plan plan, ControlState state, List<Need> needs) {
    if (state.phase() == BatchState.PAUSED) {
      needs.add(new Need(Kind.DECISION, "Resume when you are ready, or stop.", NOW));
    } else if (state.phase() == BatchState.HELD && state.alarms().holding(plan.interlocks()) < 0) {
      needs.add(new Need(Kind.DECISION, "Decide: restart or stop.", NOW));
    }
  }

  private static void presence(ControlState state, List<Need> needs) {
    Presence presence = state.presence();
    if (presence.overdue()) {
      needs.add(
          new Need(
              Kind.PRESENCE,
              presence.by() + "'s check-in has run out: check in again, or check out.",
              NOW));
    } else if (presence.attended()) {
      needs.add(
          new Need(
              Kind.PRESENCE,
              presence.by() + ": check in again, hand over or check out.",
              presence.untilMillis() / 1000.0));
    }
  }
}
