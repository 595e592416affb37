package tarnish.controller.journal;

import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

/** Ticks side by side in columns, as they are packed. Not thread-safe. */
final class TickBuffer {
  /** Ticks in a sealed block: 256 s at the usual period of 250 ms. */
  static final int CAPACITY = 1024;

  private static final Channel[] CHANNELS = Channel.values();

  int count;
  final long[] millis = new long[CAPACITY];
  final long[][] steps = new long[Channel.COUNT][CAPACITY];
  final byte[][] quality = new byte[Channel.COUNT][CAPACITY];
  final int[] switches = new int[CAPACITY];
  final int[] heaterPerMille = new int[CAPACITY];

  boolean isFull() {
    return count == CAPACITY;
  }

  long firstMillis() {
    return millis[0];
  }

  long lastMillis() {
    return millis[count - 1];
  }

  void add(long atMillis, Readings readings, Outputs outputs) {
    millis[count] = atMillis;
    for (Channel channel : CHANNELS) {
      steps[channel.ordinal()][count] = readings.steps(channel);
      quality[channel.ordinal()][count] = readings.qualityCode(channel);
    }
    switches[count] = outputs.switches();
    heaterPerMille[count] = outputs.heaterPerMille();
    count++;
  }

  void restore(int index, Readings into) {
    for (Channel channel : CHANNELS) {
      into.restore(channel, steps[channel.ordinal()][index], quality[channel.ordinal()][index]);
    }
  }

  /** The outputs at {@code index}; {@code known} again where they are the same. */
  Outputs outputs(int index, Outputs known) {
    boolean same =
        known.switches() == switches[index] && known.heaterPerMille() == heaterPerMille[index];
    return same ? known : new Outputs(switches[index], heaterPerMille[index]);
  }
}
