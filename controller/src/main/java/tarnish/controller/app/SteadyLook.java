package tarnish.controller.app;

import java.util.EnumMap;
import java.util.Map;
import tarnish.controller.service.Bench;
import tarnish.controller.service.Status;
import tarnish.shared.reading.Channel;

/** Looks at a running bench for a number of ticks and takes the mean of each reading. */
final class SteadyLook {
  private static final int TICKS = 40;
  private static final long LOOK_MILLIS = 5;
  private static final long PATIENCE_NANOS = 60_000_000_000L;

  /** What was seen of one channel, in its SI unit. */
  static final class Seen {
    private int count;
    private int bad;
    private double mean;
    private double squares;

    private void take(Double value, boolean isGood) {
      if (value == null || !isGood) {
        bad++;
        return;
      }
      count++;
      double away = value - mean;
      mean += away / count;
      squares += away * (value - mean);
    }

    double mean() {
      return mean;
    }

    /** Standard deviation of the mean. */
    double meanDeviation() {
      return Math.sqrt(squares / (count - 1) / count);
    }

    boolean isSteady() {
      return bad == 0 && count >= 5;
    }
  }

  private SteadyLook() {}

  static Map<Channel, Seen> at(Bench bench) {
    Map<Channel, Seen> seen = new EnumMap<>(Channel.class);
    long end = System.nanoTime() + PATIENCE_NANOS;
    long last = bench.status().loop().ticks();
    for (int taken = 0; taken < TICKS; ) {
      Status now = bench.status();
      if (now.loop().ticks() > last) {
        last = now.loop().ticks();
        taken++;
        for (Channel channel : Channel.values()) {
          now.readings().stream()
              .filter(line -> line.channel().equals(channel.words()))
              .forEach(
                  line ->
                      seen.computeIfAbsent(channel, it -> new Seen())
                          .take(line.value(), line.problem().isEmpty()));
        }
      } else if (System.nanoTime() > end) {
        throw new CommandFailure("The bench gave no new readings. Nothing was kept.");
      }
      pause();
    }
    return seen;
  }

  private static void pause() {
    try {
      Thread.sleep(LOOK_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CommandFailure("Interrupted.");
    }
  }
}
