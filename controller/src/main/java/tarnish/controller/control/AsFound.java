package tarnish.controller.control;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What a batch finds at the bench as it begins and does not own: who is checked in, and the alarms.
 * It is a request, so that it stands in the record and control can be run again from there.
 */
public final class AsFound {
  private AsFound() {}

  /**
   * What the batch that begins after {@code before} finds; empty where that is nothing.
   *
   * @param plan that {@code before} was run by, with the same interlock table as the new one
   */
  public static Optional<Request.TakeOver> after(String by, Plan plan, ControlState before) {
    Presence presence = before.presence().since(StrictMath.max(0, before.lastMillis()));
    Map<String, AlarmState> alarms = new TreeMap<>();
    String firstOut = "";
    List<InterlockRow> rows = plan.interlocks();
    for (int i = 0; i < rows.size(); i++) {
      if (before.alarms().state(i) != AlarmState.NORMAL) {
        alarms.put(rows.get(i).id(), before.alarms().state(i));
        firstOut = before.alarms().isFirstOut(i) ? rows.get(i).id() : firstOut;
      }
    }
    return presence.by().isEmpty() && alarms.isEmpty()
        ? Optional.empty()
        : Optional.of(new Request.TakeOver(by, presence, alarms, firstOut));
  }

  /** In the first tick of a batch, before anything is judged by who is there. */
  static void takeOver(List<Request> requests, TickWork work) {
    for (int i = 0; i < requests.size(); i++) {
      if (requests.get(i) instanceof Request.TakeOver found) {
        work.presence = found.presence();
        work.alarms = AlarmBoard.of(found.alarms(), found.firstOut(), work.plan.interlocks());
        if (found.presence().attended()) {
          work.event(new Event.PresenceChanged(found.presence().by(), "was checked in before"));
        }
        found
            .alarms()
            .forEach(
                (alarm, state) ->
                    work.event(new Event.AlarmChanged(alarm, state, "as the batch found it")));
      }
    }
  }
}
