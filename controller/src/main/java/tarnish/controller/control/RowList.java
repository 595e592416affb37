package tarnish.controller.control;

import static tarnish.controller.control.InterlockRow.bit;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tarnish.controller.control.InterlockRow.Priority;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** The rows of a rig while they are put together, with those that it cannot have. */
final class RowList {
  static final int HEAT = bit(Switch.HEATER);
  static final int HEAT_AND_OXYGEN = HEAT | bit(Switch.OXYGEN);
  static final int SUPPLIES = HEAT_AND_OXYGEN | bit(Switch.INERT);
  static final int ALL_GAS =
      bit(Switch.OXYGEN) | bit(Switch.INERT) | bit(Switch.VACUUM) | bit(Switch.PUMP);

  /** With the heartbeat stopped the watching relay cuts the supply of a heater that is stuck. */
  static final int HEAT_BY_RELAY = HEAT_AND_OXYGEN | bit(Switch.HEARTBEAT);

  /** So long must a cause be gone: a value at its limit must not chatter. */
  private static final double OFF_DELAY_S = 1;

  /** A loose contact may give good values for a second or two. */
  private static final double SENSOR_OFF_DELAY_S = 10;

  final RigDescription rig;
  private final List<InterlockRow> rows = new ArrayList<>();
  private final List<MissingRow> missing = new ArrayList<>();

  RowList(RigDescription rig) {
    this.rig = rig;
  }

  List<InterlockRow> rows() {
    return List.copyOf(rows);
  }

  List<MissingRow> missing() {
    return List.copyOf(missing);
  }

  boolean fitted(Channel channel) {
    return rig.sensor(channel).isPresent();
  }

  /** A row that holds the batch and stays until a person resets it. */
  void trip(
      String id,
      Cause cause,
      double delayS,
      int effects,
      Priority priority,
      String what,
      String todo) {
    rows.add(
        new InterlockRow(
            id,
            cause,
            delayS,
            offDelayS(cause),
            Set.of(),
            effects,
            true,
            true,
            priority,
            what,
            todo));
  }

  /** A row that acts while its cause lasts and lets the batch go on. */
  void passing(
      String id,
      Cause cause,
      double delayS,
      int effects,
      Priority priority,
      String what,
      String todo) {
    alarm(id, cause, delayS, effects, Set.of(), priority, what, todo);
  }

  void alarm(
      String id,
      Cause cause,
      double delayS,
      int effects,
      Set<String> suppressedIn,
      Priority priority,
      String what,
      String todo) {
    double offS = offDelayS(cause);
    rows.add(
        new InterlockRow(
            id, cause, delayS, offS, suppressedIn, effects, false, false, priority, what, todo));
  }

  private static double offDelayS(Cause cause) {
    if (cause instanceof Cause.Reported || cause instanceof Cause.LoopLate) {
      return 0;
    }
    return cause instanceof Cause.BadReading ? SENSOR_OFF_DELAY_S : OFF_DELAY_S;
  }

  void missing(String id, String why, String remains) {
    missing.add(new MissingRow(id, why, remains));
  }

  /** Notes a missing sensor; whether it is fitted. */
  boolean needs(Channel channel, String id, String remains) {
    if (!fitted(channel)) {
      missing(id, "no sensor for the " + channel.words(), remains);
    }
    return fitted(channel);
  }
}
