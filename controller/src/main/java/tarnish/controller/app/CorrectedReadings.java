package tarnish.controller.app;

import java.util.List;
import tarnish.controller.devices.Calibrations;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Rig;
import tarnish.shared.rig.SensorDescription;

/** Readings of a simulated bench with the calibrations in force, and as they were before. */
final class CorrectedReadings {
  private volatile Correction inForce = new Correction(Calibrations.NONE, List.of());
  private Readings uncorrected;
  private long count;

  private record Correction(Calibrations calibrations, List<SensorDescription> sensors) {}

  void use(Calibrations newer, List<SensorDescription> sensors) {
    inForce =
        new Correction(
            newer, sensors.stream().filter(sensor -> newer.has(sensor.channel())).toList());
  }

  void read(Rig rig, Readings into) {
    rig.read(into);
    count++;
    Correction now = inForce;
    if (now.sensors.isEmpty()) {
      keepAsTheyAre(into);
      return;
    }
    uncorrected = into.copy();
    for (SensorDescription sensor : now.sensors) {
      Channel channel = sensor.channel();
      if (into.isGood(channel)) {
        take(sensor, now.calibrations.correct(channel, into.value(channel)), into);
      }
    }
  }

  /** The rehearsals of weeks calibrate nothing: no copy for them, nor a write in each tick. */
  private void keepAsTheyAre(Readings into) {
    if (uncorrected != into) {
      uncorrected = into;
    }
  }

  private static void take(SensorDescription sensor, double value, Readings into) {
    if (value < sensor.rangeMin()) {
      into.bad(sensor.channel(), BadReason.BELOW_RANGE);
    } else if (value > sensor.rangeMax()) {
      into.bad(sensor.channel(), BadReason.ABOVE_RANGE);
    } else {
      into.good(sensor.channel(), value);
    }
  }

  Reading uncorrected(Channel channel) {
    return uncorrected == null ? new Reading.Bad(BadReason.NO_DATA) : uncorrected.at(channel);
  }

  /** Changes with every reading. */
  long count() {
    return count;
  }
}
