package tarnish.controller.control;

import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;

/** What it means for the batch that a person is there, leaves, or does not come back. */
final class Presences {
  private Presences() {}

  /** Lets a check-in run out, and pauses a batch that then may not go on by itself. */
  static void step(TickWork work) {
    Presence now = work.presence.step(work.lastMillis);
    if (now == work.presence) {
      return;
    }
    work.presence = now;
    work.event(new Event.PresenceChanged(now.by(), "is overdue: the check-in has run out"));
    pauseIfAlone(now.by() + " is overdue and nobody else is checked in", work);
  }

  /** After a person has gone: a step that needs one is paused, others as the recipe says. */
  static void pauseIfAlone(String why, TickWork work) {
    if (work.phase != BatchState.RUNNING || work.presence.attended()) {
      return;
    }
    boolean needed = work.run != null && work.doing() != null && needsPerson(work.doing().step());
    boolean recipePauses = work.recipe().whenAlone().overdue() == Recipe.Overdue.PAUSE;
    if (needed || (recipePauses && work.presence.overdue())) {
      work.enter(BatchState.PAUSING, why);
    }
  }

  /**
   * Whether the step may only run while a person is checked in. An opening and a question wait for
   * their answers by themselves, and an answer needs a person.
   */
  static boolean needsPerson(Step step) {
    return step.common().presence() == StepCommon.Presence.ATTENDED
        && !(step instanceof Step.Open)
        && !(step instanceof Step.Ask);
  }

  /** Whether the batch waits for a person while nobody is there. */
  static boolean waitsForPerson(TickWork work) {
    if (work.phase != BatchState.RUNNING || work.presence.attended()) {
      return false;
    }
    if (work.run instanceof OpenRun open) {
      return open.waitsForPerson(work);
    }
    return work.run == null && work.doing() != null && needsPerson(work.doing().step());
  }
}
