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
    Regulator regulator = new Regulator(work.plan.rig().regulation(), work.plan.rig().heater());
    double measuredK = work.readings.value(work.plan.rig().regulation().controlled());
    Regulator.Turn turn =
        regulator.step(work.regulator, work.setpointK, measuredK, work.ovenK(), work.tickS);
    work.regulator = turn.state();
    if (turn.relayOn()) {
      work.demand(Switch.HEATER);
    }
    return turn.perMille();
  }
}
