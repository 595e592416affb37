package tarnish.controller.control;

import tarnish.shared.quantity.Quantities;
import tarnish.shared.rig.Limits;

/** Takes the requests of coming, leaving and handing over. */
final class PresenceDesk {
  static final String CHECK_IN_FIRST = "It needs a person at the bench: check in first.";

  private static final double HOUR_MILLIS = 3_600_000;

  private PresenceDesk() {}

  /** Does or refuses the request; false if it is of another kind. */
  static boolean take(Request request, TickWork work) {
    if (request instanceof Request.CheckIn in) {
      checkIn(in, work);
    } else if (request instanceof Request.CheckOut) {
      checkOut(request.by(), work);
    } else if (request instanceof Request.HandOver over) {
      handOver(over, work);
    } else {
      return false;
    }
    return true;
  }

  private static void checkIn(Request.CheckIn in, TickWork work) {
    Presence now = work.presence;
    if (now.attended() && !now.by().equals(in.by())) {
      refuse(in.by(), "check in", now.by() + " is checked in and must hand over.", work);
    } else if (isLength(in.hours())) {
      put(in.by(), in.hours(), "is checked in for ", work);
    } else {
      refuse(in.by(), "check in", lengthWords(), work);
    }
  }

  private static void handOver(Request.HandOver over, TickWork work) {
    Presence now = work.presence;
    if (!now.attended() || !now.by().equals(over.by())) {
      refuse(over.by(), "hand over", "Only who is checked in can hand over.", work);
    } else if (over.to().isBlank() || over.to().equals(over.by())) {
      refuse(over.by(), "hand over", "It needs the name of another person.", work);
    } else if (isLength(over.hours())) {
      put(over.to(), over.hours(), "takes over from " + over.by() + " for ", work);
    } else {
      refuse(over.by(), "hand over", lengthWords(), work);
    }
  }

  private static void checkOut(String by, TickWork work) {
    if (work.presence.by().isEmpty()) {
      refuse(by, "check out", "Nobody is checked in.", work);
      return;
    }
    String above = aboveUnattended(work);
    if (!above.isEmpty() && work.presence.attended()) {
      refuse(by, "check out", above, work);
      return;
    }
    work.event(new Event.PresenceChanged(work.presence.by(), "is checked out"));
    work.presence = Presence.NOBODY;
    Presences.pauseIfAlone(by + " has checked out; the step needs a person", work);
  }

  /** Leaving a bench above its unattended limits would trip it at once. */
  private static String aboveUnattended(TickWork work) {
    if (!work.believable()) {
      return "";
    }
    Limits alone = work.plan.rig().unattended();
    boolean above =
        work.sampleK() > alone.sampleMaxK()
            || work.ovenK() > alone.ovenMaxK()
            || work.pressurePa() > alone.pressureMaxPa();
    return above ? "The bench stands above its unattended limits: bring it below them first." : "";
  }

  private static void put(String by, double hours, String what, TickWork work) {
    long until = work.lastMillis + StrictMath.round(hours * HOUR_MILLIS);
    work.presence = new Presence(by, until, false);
    work.event(new Event.PresenceChanged(by, what + Quantities.printDuration(hours * 3600)));
  }

  private static boolean isLength(double hours) {
    return hours > 0 && hours <= Presence.HOURS_MAX;
  }

  private static String lengthWords() {
    return "A check-in lasts more than 0 and at most " + (int) Presence.HOURS_MAX + " hours.";
  }

  private static void refuse(String by, String what, String why, TickWork work) {
    work.event(new Event.RequestRefused(by, what, why));
  }
}
