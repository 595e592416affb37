package tarnish.controller.journal;

import java.util.Arrays;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;

/**
 * Packs ticks column by column.
 *
 * <p>Layout: format, number of ticks, number of channels; the first time in ms, the nominal period
 * and each deviation from it; per channel its steps (the first and, unless all are equal, the
 * differences) and its quality codes plus one as runs; the switch bits as runs; the heater duty
 * like steps. Differences may wrap around, which adding them up again undoes exactly. A channel
 * that was not yet known when the block was written comes back as not fitted.
 */
final class TickCodec {
  private static final int FORMAT = 1;
  private static final int CONSTANT = 0;
  private static final int DIFFERENCES = 1;
  private static final int MOST_QUALITY = BadReason.values().length;

  private TickCodec() {}

  /** Packs the ticks from index {@code from} to before {@code to}; at least one. */
  static byte[] encode(TickBuffer ticks, int from, int to) {
    PackedWriter out = new PackedWriter();
    out.unsigned(FORMAT);
    out.unsigned(to - from);
    out.unsigned(Channel.COUNT);
    writeMillis(out, ticks.millis, from, to);
    for (int channel = 0; channel < Channel.COUNT; channel++) {
      writeColumn(out, ticks.steps[channel], from, to);
      writeQuality(out, ticks.quality[channel], from, to);
    }
    writeSwitches(out, ticks.switches, from, to);
    writeDuty(out, ticks.heaterPerMille, from, to);
    return out.toBytes();
  }

  /** Appends the packed ticks to {@code into}. */
  static void decode(byte[] packed, TickBuffer into) {
    PackedReader in = new PackedReader(packed);
    if (in.unsigned() != FORMAT) {
      throw JournalException.damaged("a block of samples has an unknown format");
    }
    int from = into.count;
    int to = from + in.count(1, TickBuffer.CAPACITY - from);
    int channels = in.count(0, Channel.COUNT);
    readMillis(in, into.millis, from, to);
    for (int channel = 0; channel < Channel.COUNT; channel++) {
      if (channel < channels) {
        readColumn(in, into.steps[channel], from, to);
        readQuality(in, into.quality[channel], from, to);
      } else {
        Arrays.fill(into.steps[channel], from, to, 0);
        Arrays.fill(into.quality[channel], from, to, (byte) BadReason.NOT_FITTED.ordinal());
      }
    }
    readSwitches(in, into.switches, from, to);
    readDuty(in, into.heaterPerMille, from, to);
    if (!in.atEnd()) {
      throw JournalException.damaged("a block of samples is too long");
    }
    into.count = to;
  }

  private static void writeMillis(PackedWriter out, long[] millis, int from, int to) {
    long period = to - from > 1 ? millis[from + 1] - millis[from] : 0;
    out.signed(millis[from]);
    out.unsigned(period);
    for (int i = from + 1; i < to; i++) {
      out.signed(millis[i] - millis[i - 1] - period);
    }
  }

  private static void readMillis(PackedReader in, long[] millis, int from, int to) {
    millis[from] = in.signed();
    long period = in.unsigned();
    for (int i = from + 1; i < to; i++) {
      millis[i] = millis[i - 1] + period + in.signed();
    }
  }

  private static void writeColumn(PackedWriter out, long[] column, int from, int to) {
    boolean constant = true;
    for (int i = from + 1; i < to && constant; i++) {
      constant = column[i] == column[from];
    }
    out.unsigned(constant ? CONSTANT : DIFFERENCES);
    out.signed(column[from]);
    for (int i = from + 1; i < to && !constant; i++) {
      out.signed(column[i] - column[i - 1]);
    }
  }

  private static void readColumn(PackedReader in, long[] column, int from, int to) {
    boolean constant = in.count(CONSTANT, DIFFERENCES) == CONSTANT;
    column[from] = in.signed();
    for (int i = from + 1; i < to; i++) {
      column[i] = constant ? column[from] : column[i - 1] + in.signed();
    }
  }

  private static void writeQuality(PackedWriter out, byte[] quality, int from, int to) {
    for (int i = from; i < to; ) {
      int end = i + 1;
      while (end < to && quality[end] == quality[i]) {
        end++;
      }
      out.unsigned(end - i);
      out.unsigned(quality[i] + 1);
      i = end;
    }
  }

  private static void readQuality(PackedReader in, byte[] quality, int from, int to) {
    for (int i = from; i < to; ) {
      int end = i + in.count(1, to - i);
      Arrays.fill(quality, i, end, (byte) (in.count(0, MOST_QUALITY) - 1));
      i = end;
    }
  }

  private static void writeSwitches(PackedWriter out, int[] switches, int from, int to) {
    for (int i = from; i < to; ) {
      int end = i + 1;
      while (end < to && switches[end] == switches[i]) {
        end++;
      }
      out.unsigned(end - i);
      out.unsigned(switches[i]);
      i = end;
    }
  }

  private static void readSwitches(PackedReader in, int[] switches, int from, int to) {
    for (int i = from; i < to; ) {
      int end = i + in.count(1, to - i);
      Arrays.fill(switches, i, end, in.count(0, Integer.MAX_VALUE));
      i = end;
    }
  }

  private static void writeDuty(PackedWriter out, int[] duty, int from, int to) {
    int before = 0;
    for (int i = from; i < to; i++) {
      out.signed(duty[i] - before);
      before = duty[i];
    }
  }

  private static void readDuty(PackedReader in, int[] duty, int from, int to) {
    long before = 0;
    for (int i = from; i < to; i++) {
      before += in.signed();
      if (before < 0 || before > 1000) {
        throw JournalException.damaged("a heater duty of " + before + " thousandths");
      }
      duty[i] = (int) before;
    }
  }
}
