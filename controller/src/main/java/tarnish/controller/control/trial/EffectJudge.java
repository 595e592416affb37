package tarnish.controller.control.trial;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;

/** Tells which sensors moved at a pulse, and which of them the wrong way. */
record EffectJudge(RigDescription rig, Switch which) implements Judge {
  /** A change this many times the noise of a mean is one. */
  static final double CLEAR = 6;

  @Override
  public Verdict judge(Look before, Look during, Look after) {
    List<Finding> findings = new ArrayList<>();
    for (SensorDescription sensor : rig.sensors()) {
      Channel channel = sensor.channel();
      double change = after.at(channel).mean() - before.at(channel).mean();
      if (StrictMath.abs(change) > leastChange(sensor, before, after)) {
        findings.add(Finding.right(moved(channel, change)));
        if (isWrongWay(channel, change)) {
          findings.add(Finding.wrong(whatIfWrong(channel)));
        }
      }
    }
    if (findings.isEmpty()) {
      findings.add(Finding.right("No sensor moved clearly: look and listen whether it switched."));
    }
    return new Verdict(true, findings);
  }

  /** The least change of a mean that noise and resolution cannot feign. */
  static double leastChange(SensorDescription sensor, Look before, Look after) {
    ChannelLook one = before.at(sensor.channel());
    ChannelLook two = after.at(sensor.channel());
    double noise = StrictMath.max(one.noise(), two.noise());
    int count = StrictMath.max(1, StrictMath.min(one.good(), two.good()));
    return StrictMath.max(CLEAR * noise / StrictMath.sqrt(count), sensor.resolution());
  }

  /**
   * Noise of one value as the rig file states it: what a flow does from tick to tick must not be
   * taken for noise.
   */
  static double statedNoise(RigDescription rig, Channel channel) {
    SensorDescription sensor = rig.sensor(channel).orElseThrow();
    return StrictMath.hypot(sensor.noise(), sensor.resolution() / StrictMath.sqrt(12));
  }

  private static String moved(Channel channel, double change) {
    return "The "
        + channel.words()
        + (change > 0 ? " rose by " : " fell by ")
        + Amounts.difference(channel, StrictMath.abs(change))
        + ".";
  }

  private boolean isWrongWay(Channel channel, double change) {
    boolean heated = which == Switch.HEATER && channel.kind() == Channel.Kind.TEMPERATURE;
    boolean filled =
        (which == Switch.OXYGEN || which == Switch.INERT) && channel == Channel.VESSEL_PRESSURE;
    return change < 0 && (heated || filled);
  }

  private static String whatIfWrong(Channel channel) {
    return channel.kind() == Channel.Kind.TEMPERATURE
        ? "It fell while the heater was on: its two wires may be swapped."
        : "It fell while gas was let in: is this another valve?";
  }
}
