package tarnish.controller.app;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.devices.Adapters;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.devices.ChannelTalk;
import tarnish.controller.devices.DeviceRig;
import tarnish.controller.files.RigFile;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;

/** A real bench: one for all batches of a service. */
record DeviceBench(DeviceRig rig, Adapters adapters) implements BatchBench {

  /** Takes hold of every device; those that do not answer are tried again by themselves. */
  static DeviceBench open(RigFile file, Path data) {
    Adapters adapters = new Adapters();
    DeviceRig rig =
        new DeviceRig(
            file.rig(),
            file.devices().orElseThrow(),
            CalibrationFile.in(data).read(),
            adapters::of,
            System::nanoTime);
    return new DeviceBench(rig, adapters);
  }

  @Override
  public boolean isReal() {
    return true;
  }

  @Override
  public void use(Calibrations calibrations, RigDescription description) {
    rig.use(calibrations);
  }

  @Override
  public ChannelTalk talk(Channel channel) {
    return rig.talk(channel);
  }

  @Override
  public void pass(double seconds) {
    // Time passes by itself.
  }

  @Override
  public void answered(OpenQuestion question) {
    // The person has done it.
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
  public List<String> devices() {
    return DeviceLines.of(rig);
  }

  @Override
  public List<String> unconfirmed() {
    return rig.unconfirmed();
  }

  @Override
  public void close() {
    rig.close();
    adapters.close();
  }
}
