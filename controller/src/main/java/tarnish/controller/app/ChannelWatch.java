package tarnish.controller.app;

import tarnish.controller.control.trial.ChannelLook;
import tarnish.controller.devices.ChannelTalk;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/** What one sensor said over the last seconds. Touched by the loop thread only. */
final class ChannelWatch {
  /** How far back is looked, in s. */
  static final double WINDOW_S = 10;

  private final double tickS;
  private final double[] shown;
  private final double[] uncorrected;
  private final boolean[] answered;
  private int next;
  private int filled;
  private long freshness = Long.MIN_VALUE;
  private BadReason lastReason;
  private ChannelTalk talk;

  ChannelWatch(double tickS) {
    this.tickS = tickS;
    int length = (int) Math.max(4, Math.round(WINDOW_S / tickS));
    shown = new double[length];
    uncorrected = new double[length];
    answered = new boolean[length];
  }

  void see(Reading reading, ChannelTalk newest) {
    talk = newest;
    shown[next] = value(reading);
    uncorrected[next] = value(newest.uncorrected());
    answered[next] = newest.freshness() != freshness;
    freshness = newest.freshness();
    if (reading instanceof Reading.Bad bad) {
      lastReason = bad.reason();
    }
    next = (next + 1) % shown.length;
    filled = Math.min(filled + 1, shown.length);
  }

  private static double value(Reading reading) {
    return reading instanceof Reading.Good good ? good.value() : Double.NaN;
  }

  boolean isFull() {
    return filled == shown.length;
  }

  /** The newest value; NaN where it is bad. */
  double newest() {
    return filled == 0 ? Double.NaN : shown[(next + shown.length - 1) % shown.length];
  }

  ChannelLook shown() {
    return look(shown);
  }

  /** The same before any calibration. */
  ChannelLook uncorrected() {
    return look(uncorrected);
  }

  private ChannelLook look(double[] values) {
    ChannelLook look = ChannelLook.NONE;
    for (int i = 0; i < filled; i++) {
      double value = values[(next - filled + i + values.length) % values.length];
      look = Double.isNaN(value) ? look.missed() : look.saw(value, i * tickS);
    }
    return look;
  }

  /** Answers of the device per s. */
  double answersPerS() {
    int count = 0;
    for (int i = 0; i < filled; i++) {
      count += answered[(next - filled + i + answered.length) % answered.length] ? 1 : 0;
    }
    return filled == 0 ? 0 : count / (filled * tickS);
  }

  /** Why it was bad last; null where it never was. */
  BadReason lastReason() {
    return lastReason;
  }

  /** Null before the first tick. */
  ChannelTalk talk() {
    return talk;
  }
}
