package tarnish.controller.app;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.devices.ChannelTalk;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.WiredRig;

/** The bench in equations as somebody has wired it, for a live bench. */
record MiswiredBench(WiredRig rig, CorrectedReadings corrected) implements BatchBench {
  MiswiredBench(WiredRig rig) {
    this(rig, new CorrectedReadings());
  }

  @Override
  public void read(Readings into) {
    corrected.read(rig, into);
  }

  @Override
  public void use(Calibrations calibrations, RigDescription description) {
    corrected.use(calibrations, description.sensors());
  }

  @Override
  public ChannelTalk talk(Channel channel) {
    return new ChannelTalk(
        "terminals of a miswired bench",
        "0x1A2B",
        corrected.uncorrected(channel),
        corrected.count(),
        1.25);
  }

  @Override
  public boolean isReal() {
    return false;
  }

  @Override
  public void pass(double seconds) {
    rig.bench().advance(seconds);
  }

  @Override
  public void answered(OpenQuestion question) {
    // Nothing is asked on a bench that is only checked.
  }

  @Override
  public OptionalDouble weighKg() {
    return OptionalDouble.empty();
  }

  @Override
  public OptionalDouble trueOxygenPerUnit() {
    return OptionalDouble.empty();
  }

  @Override
  public List<String> unconfirmed() {
    return List.of();
  }
}
