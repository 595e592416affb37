package tarnish.controller.control;

import tarnish.shared.rig.Switch;

/** Turns the setpoint into a heater demand. */
final class Heating {
  private Heating() {}

  /** One tick; gives the duty in thousandths. */
  static int step(TickWork work) {
    boolean wanted =
        work.phase == BatchState.RUNNING
            && work.setpointK != ControlState.HEATER_OFF
            && work.believable();
    if (!wanted) {
      work.regulator = RegulatorState.IDLE;
      return 0;
    }
    Regulator.Turn turn = work.course != null ? byModel(work) : bySettings(work);
    work.regulator = turn.state();
    if (turn.relayOn()) {
      work.demand(Switch.HEATER);
    }
    return turn.perMille();
  }

  private static Regulator.Turn bySettings(TickWork work) {
    double measuredK = work.readings.value(work.plan.rig().regulation().controlled());
    return work.plan
        .regulator()
        .step(work.regulator, work.setpointK, measuredK, work.ovenK(), work.tickS);
  }

  private static Regulator.Turn byModel(TickWork work) {
    return work.plan
        .modelRegulator()
        .step(work.regulator, work.course, work.sampleK(), work.ovenK(), work.roomK(), work.tickS);
  }
}
