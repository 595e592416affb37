package tarnish.controller.app;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.devices.ChannelTalk;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.SimulatedRig;

/** A bench in equations: each batch gets a new one. */
record SimulatedBench(SimulatedRig rig, CorrectedReadings corrected) implements BatchBench {
  SimulatedBench(SimulatedRig rig) {
    this(rig, new CorrectedReadings());
  }

  static BatchBench make(RigDescription rig, Recipe recipe, long seed, BatchBench before) {
    if (before != null) {
      before.close();
    }
    return new SimulatedBench(new SimulatedRig(rig, recipe, seed));
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
        "the bench in equations",
        "",
        corrected.uncorrected(channel),
        corrected.count(),
        Double.NaN);
  }

  @Override
  public boolean isReal() {
    return false;
  }

  @Override
  public void pass(double seconds) {
    rig.advance(seconds);
  }

  @Override
  public void answered(OpenQuestion question) {
    BenchHands.act(question, rig);
  }

  @Override
  public OptionalDouble weighKg() {
    return OptionalDouble.of(rig.weigh());
  }

  @Override
  public OptionalDouble trueOxygenPerUnit() {
    return OptionalDouble.of(rig.truth().oxygenPerUnit());
  }

  @Override
  public List<String> unconfirmed() {
    return List.of();
  }
}
