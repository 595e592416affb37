package tarnish.controller.control;

import java.util.List;
import java.util.Set;
import tarnish.controller.control.trial.Trial;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;

/**
 * One tick of a trial at a bench that runs no batch: under the same interlocks and through the same
 * gate as a batch. A fallen permit, a missing person or a warm oven ends the trial with everything
 * off.
 */
public final class BenchTrials {
  /** Nothing is heated in a trial that is not touchable with gloves: common practice. */
  private static final double COLD_K = Control.COOL_ENOUGH_K;

  private BenchTrials() {}

  /** What comes of a tick. */
  public record Result(Turn turn, Trial trial) {}

  /**
   * One tick, as {@link Control#tick}; a plan of a recipe without steps serves.
   *
   * @param trial that is under way
   */
  public static Result tick(
      Plan plan,
      ControlState before,
      Trial trial,
      Readings readings,
      List<Request> requests,
      long nowMillis) {
    TickWork work = new TickWork(plan, before);
    boolean first = before.lastMillis() < 0;
    work.readings = readings;
    work.tickS = (first ? plan.rig().tickMillis() : nowMillis - before.lastMillis()) / 1000.0;
    work.lastMillis = nowMillis;
    Signs.step(work, nowMillis, before.lastMillis());
    if (trial.expectsNoFlow()) {
      // The bottle is still shut: that nothing fills the vessel is no sign of a fault.
      work.signs = new Signs(work.signs.plausibility(), work.signs.heat(), GasSigns.NONE);
    }
    Presences.step(work);
    work.alarms = work.alarms.judge(plan.interlocks(), work);
    for (Request request : requests) {
      RequestDesk.take(request, work);
    }
    int withheld = work.alarms.withheld(plan.interlocks());
    // Raw readings: what is implausible to control may be the very thing that is looked for.
    Trial next = trial.hasEnded() ? trial : trial.step(readings, work.tickS);
    if (!next.hasEnded() && requests.stream().anyMatch(Request.Abort.class::isInstance)) {
      next = next.stopped("Safe now was asked for.");
    }
    String whyNot = next.demands().isEmpty() ? "" : whyNot(next.demands(), withheld, work);
    if (!whyNot.isEmpty()) {
      next = next.stopped(whyNot);
    }
    next.demands().forEach(work::demand);
    if (plan.rig().ventOpenWhenSafe() && (next.hasEnded() || !next.question().isEmpty())) {
      work.demand(Switch.VENT);
    }
    work.outputs =
        Gate.outputs(work.demandBits(), withheld, next.heaterPerMille(), before.outputs());
    return new Result(new Turn(work.state(), work.outputs, work.events()), next);
  }

  private static String whyNot(Set<Switch> wanted, int withheld, TickWork work) {
    if (work.phase != BatchState.IDLE && !work.phase.isFinal()) {
      return "The batch is " + work.phase.words() + ".";
    }
    if (!work.presence.attended()) {
      return PresenceDesk.CHECK_IN_FIRST;
    }
    for (Switch each : wanted) {
      if ((withheld & InterlockRow.bit(each)) != 0) {
        return "An interlock withholds the " + each.words() + ". " + cause(work);
      }
    }
    // The interlock leaves the vent alone, for relief; a trial leaves everything alone.
    if (work.readings.isFitted(Channel.EMERGENCY_STOP)
        && !(work.readings.valueOr(Channel.EMERGENCY_STOP, 0) >= 0.5)) {
      return "The emergency stop was pressed, or its circuit is broken.";
    }
    if (wanted.contains(Switch.HEATER) && !isCold(work)) {
      return "Sample and oven must be known and below 50 °C.";
    }
    boolean fills = wanted.contains(Switch.OXYGEN) || wanted.contains(Switch.INERT);
    double pressurePa = work.readings.valueOr(Channel.VESSEL_PRESSURE, Double.MAX_VALUE);
    return fills && !(pressurePa < work.plan.rig().unattended().pressureMaxPa())
        ? "The vessel pressure must be known and below the unattended limit."
        : "";
  }

  private static String cause(TickWork work) {
    int row = work.alarms.holding(work.plan.interlocks());
    return row < 0 ? "" : work.plan.interlocks().get(row).what();
  }

  private static boolean isCold(TickWork work) {
    return work.readings.valueOr(Channel.SAMPLE_TEMPERATURE, Double.MAX_VALUE) < COLD_K
        && work.readings.valueOr(Channel.OVEN_TEMPERATURE, Double.MAX_VALUE) < COLD_K;
  }
}
