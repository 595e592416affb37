package tarnish.controller.control;

import java.util.List;
import tarnish.shared.reading.Readings;

/**
 * The whole control law as one pure function of state, readings, requests and time.
 *
 * <p>It reads no clock, file or socket and holds nothing between two calls, so the recorded
 * readings and requests of a batch give the same outputs and events on any machine.
 */
public final class Control {
  /** Touchable for a person with gloves, in K: common practice. Stopping ends here. */
  static final double COOL_ENOUGH_K = 323.15;

  private Control() {}

  /**
   * One tick.
   *
   * @param plan of the batch
   * @param before state after the last tick
   * @param readings of this tick; not changed
   * @param requests taken in this tick, in order
   * @param nowMillis monotonic time since the batch began, greater than in the last tick
   * @throws IllegalArgumentException if time does not go forward
   */
  public static Turn tick(
      Plan plan, ControlState before, Readings readings, List<Request> requests, long nowMillis) {
    if (nowMillis <= before.lastMillis()) {
      throw new IllegalArgumentException(
          "time must go forward: " + nowMillis + " ms after " + before.lastMillis() + " ms");
    }
    TickWork work = new TickWork(plan, before);
    work.readings = readings;
    work.tickS = tickSeconds(plan, before, requests, nowMillis);
    work.lastMillis = nowMillis;
    if (before.lastMillis() < 0) {
      AsFound.takeOver(requests, work);
    }
    Signs.step(work, nowMillis, before.lastMillis());
    Presences.step(work);
    Accounts.step(work);
    work.alarms = work.alarms.judge(plan.interlocks(), work);
    for (int i = 0; i < requests.size(); i++) {
      RequestDesk.take(requests.get(i), work);
    }
    Phases.step(work);
    work.expectation = work.expectation.step(work);
    int perMille = Heating.step(work);
    int withheld = work.alarms.withheld(plan.interlocks());
    work.outputs = Gate.outputs(work.demandBits(), withheld, perMille, before.outputs());
    return new Turn(work.state(), work.outputs, work.events());
  }

  /** The first tick, and the first after an outage, stand for one nominal period. */
  private static double tickSeconds(
      Plan plan, ControlState before, List<Request> requests, long nowMillis) {
    boolean first = before.lastMillis() < 0;
    for (int i = 0; i < requests.size(); i++) {
      first |= requests.get(i) instanceof Request.PowerReturned;
    }
    return (first ? plan.rig().tickMillis() : nowMillis - before.lastMillis()) / 1000.0;
  }
}
