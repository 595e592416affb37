package tarnish.controller.journal;

import java.util.Arrays;
import tarnish.shared.reading.Channel;

/** What a stretch of ticks comes to, in whole steps: enough to draw it without its ticks. */
final class Summary {
  private static final byte GOOD = -1;

  long firstMillis;
  long lastMillis;
  int ticks;
  int switchesOn;
  long perMilleSum;
  final int[] count = new int[Channel.COUNT];
  final long[] least = new long[Channel.COUNT];
  final long[] greatest = new long[Channel.COUNT];
  final long[] first = new long[Channel.COUNT];
  final long[] last = new long[Channel.COUNT];

  static Summary of(TickBuffer buffer, int from, int to) {
    Summary summary = new Summary();
    for (int i = from; i < to; i++) {
      summary.take(buffer, i);
    }
    return summary;
  }

  void clear() {
    ticks = 0;
    switchesOn = 0;
    perMilleSum = 0;
    Arrays.fill(count, 0);
  }

  /** Adds one later tick. */
  void take(TickBuffer buffer, int index) {
    firstMillis = ticks == 0 ? buffer.millis[index] : firstMillis;
    lastMillis = buffer.millis[index];
    ticks++;
    switchesOn |= buffer.switches[index];
    perMilleSum += buffer.heaterPerMille[index];
    for (int channel = 0; channel < Channel.COUNT; channel++) {
      if (buffer.quality[channel][index] == GOOD) {
        long steps = buffer.steps[channel][index];
        takeGood(channel, 1, steps, steps, steps, steps);
      }
    }
  }

  /** Adds a later stretch. */
  void take(Summary later) {
    firstMillis = ticks == 0 ? later.firstMillis : firstMillis;
    lastMillis = later.lastMillis;
    ticks += later.ticks;
    switchesOn |= later.switchesOn;
    perMilleSum += later.perMilleSum;
    for (int i = 0; i < Channel.COUNT; i++) {
      if (later.count[i] > 0) {
        takeGood(
            i, later.count[i], later.least[i], later.greatest[i], later.first[i], later.last[i]);
      }
    }
  }

  private void takeGood(int channel, int number, long low, long high, long earliest, long latest) {
    if (count[channel] == 0) {
      least[channel] = low;
      greatest[channel] = high;
      first[channel] = earliest;
    } else {
      least[channel] = Math.min(least[channel], low);
      greatest[channel] = Math.max(greatest[channel], high);
    }
    last[channel] = latest;
    count[channel] += number;
  }
}
