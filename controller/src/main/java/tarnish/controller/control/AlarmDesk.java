package tarnish.controller.control;

import tarnish.shared.rig.Defeat;

/** Takes the requests of shelving alarms and defeating interlocks. */
final class AlarmDesk {
  /** Longest shelving: about one shift, common practice. */
  static final double SHELVE_MINUTES_MAX = 480;

  private static final double MINUTE_MILLIS = 60_000;

  private final TickWork work;
  private final String by;

  private AlarmDesk(TickWork work, String by) {
    this.work = work;
    this.by = by;
  }

  /** Does or refuses the request; false if it is of another kind. */
  static boolean take(Request request, TickWork work) {
    AlarmDesk desk = new AlarmDesk(work, request.by());
    if (request instanceof Request.Shelve shelve) {
      desk.shelve(shelve);
    } else if (request instanceof Request.Unshelve unshelve) {
      desk.unshelve(unshelve.alarm());
    } else if (request instanceof Request.Defeat defeat) {
      desk.defeat(defeat);
    } else if (request instanceof Request.Enforce enforce) {
      desk.enforce(enforce.alarm());
    } else {
      return false;
    }
    return true;
  }

  private void shelve(Request.Shelve shelve) {
    String what = "shelve '" + shelve.alarm() + "'";
    int i = row(shelve.alarm());
    if (i < 0) {
      refuse(what, "There is no such alarm.");
    } else if (rowAt(i).priority() == InterlockRow.Priority.HIGH) {
      refuse(what, "An alarm of high priority cannot be shelved.");
    } else if (!isWithin(shelve.minutes(), SHELVE_MINUTES_MAX)) {
      refuse(what, "A shelving lasts at most " + (int) SHELVE_MINUTES_MAX + " minutes.");
    } else if (shelve.reason().isBlank()) {
      refuse(what, "It needs a reason for the record.");
    } else {
      work.alarms = work.alarms.shelved(i, until(shelve.minutes()));
      setAside(shelve.alarm(), "is shelved by ", shelve.minutes(), shelve.reason());
    }
  }

  private void unshelve(String alarm) {
    int i = row(alarm);
    if (i < 0 || !work.alarms.isShelved(i)) {
      refuse("unshelve '" + alarm + "'", "It is not shelved.");
      return;
    }
    work.alarms = work.alarms.unshelved(i);
    work.event(new Event.AlarmSetAside(alarm, "is no longer shelved, by " + by));
  }

  private void defeat(Request.Defeat defeat) {
    String what = "defeat '" + defeat.alarm() + "'";
    Defeat rule = work.plan.rig().defeat();
    int i = row(defeat.alarm());
    if (i < 0 || !rule.interlocks().contains(defeat.alarm())) {
      refuse(what, "The rig file does not allow it.");
    } else if (!work.presence.attended()) {
      refuse(what, PresenceDesk.CHECK_IN_FIRST);
    } else if (!isWithin(defeat.minutes() * 60, rule.atMostS())) {
      refuse(what, "The rig file allows at most " + Words.duration(rule.atMostS()) + ".");
    } else if (defeat.reason().isBlank()) {
      refuse(what, "It needs a reason for the record.");
    } else {
      work.alarms = work.alarms.defeated(i, until(defeat.minutes()));
      setAside(defeat.alarm(), "is DEFEATED by ", defeat.minutes(), defeat.reason());
    }
  }

  private void enforce(String alarm) {
    int i = row(alarm);
    if (i < 0 || !work.alarms.isDefeated(i)) {
      refuse("enforce '" + alarm + "'", "It is enforced.");
      return;
    }
    work.alarms = work.alarms.undefeated(i);
    work.event(new Event.AlarmSetAside(alarm, "is enforced again, by " + by));
  }

  private void setAside(String alarm, String what, double minutes, String reason) {
    String words = what + by + " for " + Words.duration(minutes * 60) + ": " + reason;
    work.event(new Event.AlarmSetAside(alarm, words));
  }

  private int row(String alarm) {
    return AlarmBoard.indexOf(alarm, work.plan.interlocks());
  }

  private InterlockRow rowAt(int i) {
    return work.plan.interlocks().get(i);
  }

  private long until(double minutes) {
    return work.lastMillis + StrictMath.round(minutes * MINUTE_MILLIS);
  }

  private static boolean isWithin(double value, double max) {
    return value > 0 && value <= max;
  }

  private void refuse(String what, String why) {
    work.event(new Event.RequestRefused(by, what, why));
  }
}
