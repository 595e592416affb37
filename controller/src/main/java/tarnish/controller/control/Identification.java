package tarnish.controller.control;

import java.util.List;
import tarnish.shared.oven.Experiment;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * Getting to know the oven under the same interlocks and through the same gate as a batch: the
 * first trip, withheld permit or bad reading ends it with everything off.
 *
 * <p>The vessel stays shut; what expands in it is let out through the vent, and nothing comes in.
 */
public final class Identification {
  /** Pressure above the room's at which the vent opens, in Pa. */
  private static final double RELIEVE_PA = 1000;

  private Identification() {}

  /** Everything it knows between two ticks. */
  public record State(ControlState control, Experiment.State experiment) {
    public static State begin(Plan plan) {
      return new State(ControlState.initial(plan), Experiment.State.BEGIN);
    }
  }

  /** What comes of a tick. */
  public record Turn(State state, Outputs outputs, List<Event> events) {}

  /** One tick, as {@link Control#tick}; a plan of a recipe without steps serves. */
  public static Turn tick(
      Plan plan, Experiment experiment, State before, Readings readings, long nowMillis) {
    TickWork work = new TickWork(plan, before.control());
    boolean first = before.control().lastMillis() < 0;
    work.readings = readings;
    work.tickS = (first ? plan.rig().tickMillis() : nowMillis - work.lastMillis) / 1000.0;
    work.lastMillis = nowMillis;
    Signs.step(work, nowMillis, before.control().lastMillis());
    Presences.step(work);
    work.alarms = work.alarms.judge(plan.interlocks(), work);
    int withheld = work.alarms.withheld(plan.interlocks());
    Experiment.State next = next(experiment, before.experiment(), withheld, work);
    double duty = next.duty(experiment);
    if (isOn(plan.rig().heater(), duty, nowMillis)) {
      work.demand(Switch.HEATER);
    }
    if (!next.stage().isFinal()
        && work.readings.isGood(Channel.VESSEL_PRESSURE)
        && work.pressurePa() > work.roomPa() + RELIEVE_PA) {
      work.demand(Switch.VENT);
    }
    int perMille = (int) StrictMath.round(1000 * duty);
    work.outputs = Gate.outputs(work.demandBits(), withheld, perMille, before.control().outputs());
    return new Turn(new State(work.state(), next), work.outputs, work.events());
  }

  /** A relay gives a part of its power by being on for a part of each window. */
  private static boolean isOn(Heater heater, double duty, long nowMillis) {
    if (heater.actuator() != Heater.Actuator.RELAY || duty >= 1) {
      return duty > 0;
    }
    long windowMillis = StrictMath.round(1000 * heater.windowS());
    return nowMillis % StrictMath.max(1, windowMillis) < duty * windowMillis;
  }

  private static Experiment.State next(
      Experiment experiment, Experiment.State before, int withheld, TickWork work) {
    int row = work.alarms.holding(work.plan.interlocks());
    if (row >= 0) {
      return Experiment.abort(before, work.plan.interlocks().get(row).what());
    }
    if ((withheld & InterlockRow.bit(Switch.HEATER)) != 0) {
      return Experiment.abort(before, "An interlock withheld the heater.");
    }
    if (!work.believable()) {
      return before.stage().isFinal()
          ? before
          : Experiment.abort(before, "A temperature or the pressure gave no believable value.");
    }
    return experiment.step(before, work.ovenK(), work.sampleK(), work.tickS);
  }
}
