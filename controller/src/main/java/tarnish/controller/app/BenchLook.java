package tarnish.controller.app;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import tarnish.controller.devices.DeviceRig;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** Looks at all sensors for a while with given outputs, keeping the heartbeat going. */
final class BenchLook {
  private final RigDescription rig;
  private final BatchBench bench;
  private final double seconds;
  private final Readings readings;
  private boolean beat;

  BenchLook(RigDescription rig, BatchBench bench, double seconds) {
    this.rig = rig;
    this.bench = bench;
    this.seconds = seconds;
    this.readings = new Readings(rig.resolutions());
  }

  /** What one sensor said during a look. */
  static final class Seen {
    private final List<Double> values = new ArrayList<>();
    private final List<Double> uncorrected = new ArrayList<>();
    private BadReason lastReason;
    private int ticks;
    private int answers;
    private long freshness = Long.MIN_VALUE;
    private double lookedS;

    double last() {
      return values.isEmpty() ? Double.NaN : values.get(values.size() - 1);
    }

    double mean() {
      return mean(values);
    }

    /** Mean of the values before any calibration. */
    double uncorrectedMean() {
      return mean(uncorrected);
    }

    private static double mean(List<Double> of) {
      return of.stream().mapToDouble(Double::doubleValue).average().orElse(Double.NaN);
    }

    /**
     * Standard deviation of one value. Taken from the differences of neighbours, which a slow drift
     * hardly touches: s² = Σ(x[i+1] - x[i])² / (2 (n - 1)) (von Neumann 1941).
     */
    double noise() {
      double sum = 0;
      for (int i = 1; i < values.size(); i++) {
        double step = values.get(i) - values.get(i - 1);
        sum += step * step;
      }
      return values.size() < 2 ? Double.NaN : Math.sqrt(sum / (2 * (values.size() - 1)));
    }

    int count() {
      return values.size();
    }

    double goodShare() {
      return ticks == 0 ? 0 : values.size() / (double) ticks;
    }

    double answersPerS() {
      return answers / lookedS;
    }

    /** The last reason for a bad reading, or null. */
    BadReason lastReason() {
      return lastReason;
    }
  }

  Map<Channel, Seen> look(Outputs outputs) {
    return look(outputs, seconds);
  }

  Map<Channel, Seen> look(Outputs outputs, double forS) {
    Map<Channel, Seen> seen = new EnumMap<>(Channel.class);
    rig.sensors().forEach(sensor -> seen.put(sensor.channel(), new Seen()));
    double tickS = rig.tickMillis() / 1000.0;
    int ticks = (int) Math.max(1, Math.round(forS / tickS));
    for (int i = 0; i < ticks; i++) {
      tick(outputs, tickS);
      seen.forEach((channel, each) -> note(channel, each, tickS));
    }
    return seen;
  }

  private void tick(Outputs outputs, double tickS) {
    beat = !beat;
    bench.rig().write(outputs.with(Switch.HEARTBEAT, beat));
    bench.pass(tickS);
    if (bench.isReal()) {
      long end = System.nanoTime() + (long) (tickS * 1e9);
      while (System.nanoTime() < end) {
        LockSupport.parkNanos(end - System.nanoTime());
      }
    }
    bench.rig().read(readings);
  }

  private void note(Channel channel, Seen seen, double tickS) {
    seen.ticks++;
    seen.lookedS += tickS;
    Reading reading = readings.at(channel);
    long freshness = seen.ticks;
    if (bench.rig() instanceof DeviceRig devices) {
      freshness = devices.freshness(channel);
      if (devices.uncorrected(channel) instanceof Reading.Good good) {
        seen.uncorrected.add(good.value());
      }
    } else if (reading instanceof Reading.Good good) {
      seen.uncorrected.add(good.value());
    }
    if (freshness != seen.freshness) {
      seen.answers++;
      seen.freshness = freshness;
    }
    if (reading instanceof Reading.Good good) {
      seen.values.add(good.value());
    } else {
      seen.lastReason = ((Reading.Bad) reading).reason();
    }
  }

  /** What the device of a channel last said, as it came. */
  String raw(Channel channel) {
    return bench.rig() instanceof DeviceRig devices ? devices.raw(channel) : "";
  }

  Readings readings() {
    return readings;
  }
}
