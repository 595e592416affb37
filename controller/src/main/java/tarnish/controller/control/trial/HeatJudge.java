package tarnish.controller.control.trial;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/**
 * Tells thermocouples apart by a heat pulse. Heat reaches the oven's wall first and the sample
 * through wall and vessel much later, so shortly after a pulse the wall has moved by far the most.
 * A thermocouple with its wires the wrong way round falls when its tip is warmed.
 */
record HeatJudge(RigDescription rig) implements Judge {
  private static final List<Channel> AT_THE_WALL =
      List.of(Channel.OVEN_TEMPERATURE, Channel.OVEN_TEMPERATURE_PAIR);

  private static final double LEAST_K = 0.4;

  /** One has moved before another if it has moved this many times as far. */
  private static final double AHEAD = 2;

  @Override
  public Verdict judge(Look before, Look during, Look after) {
    List<Finding> findings = new ArrayList<>();
    boolean told = false;
    for (Channel channel : channels()) {
      if (!before.at(channel).isSteady() || !after.at(channel).isSteady()) {
        findings.add(Finding.wrong("The " + channel.words() + " gave no steady value."));
      } else if (change(channel, before, after) < -least(channel, before, after)) {
        findings.add(
            Finding.wrong(
                "The "
                    + channel.words()
                    + " fell by "
                    + Amounts.kelvin(-change(channel, before, after))
                    + " while it was warmed: reversed polarity, exchange its two wires."));
        told = true;
      }
    }
    for (Channel wall : AT_THE_WALL) {
      if (rig.sensor(wall).isPresent()) {
        told |= compare(wall, before, after, findings);
      }
    }
    if (!told) {
      findings.add(Finding.right("Nothing has moved clearly yet."));
    }
    return new Verdict(told, findings);
  }

  private List<Channel> channels() {
    List<Channel> fitted = new ArrayList<>(AT_THE_WALL);
    fitted.add(Channel.SAMPLE_TEMPERATURE);
    fitted.removeIf(channel -> rig.sensor(channel).isEmpty());
    return fitted;
  }

  /** Which of the two is nearer to the heat; false where that is not clear. */
  private boolean compare(Channel wall, Look before, Look after, List<Finding> findings) {
    double wallK = StrictMath.abs(change(wall, before, after));
    double sampleK = StrictMath.abs(change(Channel.SAMPLE_TEMPERATURE, before, after));
    if (wallK > least(wall, before, after) && wallK > AHEAD * sampleK) {
      findings.add(
          Finding.right(
              "The %s moved by %s, the sample temperature by %s: each is where it should be."
                  .formatted(wall.words(), Amounts.kelvin(wallK), Amounts.kelvin(sampleK))));
      return true;
    }
    if (sampleK > least(Channel.SAMPLE_TEMPERATURE, before, after) && sampleK > AHEAD * wallK) {
      findings.add(
          Finding.wrong(
              ("The sample temperature moved by %s before the %s did (%s): these two are swapped."
                      + " Exchange them at the terminals or in the rig file.")
                  .formatted(Amounts.kelvin(sampleK), wall.words(), Amounts.kelvin(wallK))));
      return true;
    }
    return false;
  }

  private double change(Channel channel, Look before, Look after) {
    return after.at(channel).mean() - before.at(channel).mean();
  }

  private double least(Channel channel, Look before, Look after) {
    SensorDescription sensor = rig.sensor(channel).orElseThrow();
    return StrictMath.max(LEAST_K, EffectJudge.leastChange(sensor, before, after));
  }
}
