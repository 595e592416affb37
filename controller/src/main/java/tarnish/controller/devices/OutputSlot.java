package tarnish.controller.devices;

import tarnish.controller.devices.setup.OutputSpec;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** One output of a device and what it stands for. Touched by its device's thread only. */
final class OutputSlot {
  private static final int UNKNOWN = -1;

  final OutputSpec spec;

  /** Null for the duty of an analogue heater. */
  private final Switch which;

  private int confirmed = UNKNOWN;
  private volatile long confirmedNanos;

  OutputSlot(OutputSpec spec, Switch which, long nowNanos) {
    this.spec = spec;
    this.which = which;
    this.confirmedNanos = nowNanos;
  }

  int target(Outputs outputs) {
    if (which == null) {
      return outputs.isOn(Switch.HEATER) ? outputs.heaterPerMille() : 0;
    }
    return outputs.isOn(which) ? 1 : 0;
  }

  boolean isDue(Outputs outputs, long nowNanos, long refreshNanos) {
    return target(outputs) != confirmed || nowNanos - confirmedNanos >= refreshNanos;
  }

  void confirm(int value, long nowNanos) {
    confirmed = value;
    confirmedNanos = nowNanos;
  }

  void forget() {
    confirmed = UNKNOWN;
  }

  long confirmedNanos() {
    return confirmedNanos;
  }

  String words() {
    return which == null ? "heater duty" : which.words();
  }
}
