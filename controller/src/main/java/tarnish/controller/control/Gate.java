package tarnish.controller.control;

import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** The one place that energises an output: demanded and permitted, or off. */
final class Gate {
  private static final int HEATER = InterlockRow.bit(Switch.HEATER);
  private static final int HEARTBEAT = InterlockRow.bit(Switch.HEARTBEAT);

  private Gate() {}

  /**
   * @param demandBits what the step and the regulator ask for
   * @param withheldBits permits that have fallen
   * @param heaterPerMille wanted heater duty
   * @param before outputs of the last tick
   */
  static Outputs outputs(int demandBits, int withheldBits, int heaterPerMille, Outputs before) {
    int bits = demandBits & ~withheldBits;
    // The heartbeat is a square wave: a watching relay drops out when it stops, high or low. Where
    // the heater does not obey, letting that relay drop is all that is left to do.
    if (!before.isOn(Switch.HEARTBEAT) && (withheldBits & HEARTBEAT) == 0) {
      bits |= HEARTBEAT;
    }
    boolean heaterPermitted = (withheldBits & HEATER) == 0;
    return new Outputs(bits, heaterPermitted ? heaterPerMille : 0);
  }
}
