package tarnish.controller.journal;

import tarnish.shared.reading.Channel;

/** Packs summaries one after the other, each against the one before it. */
final class SummaryCodec {
  private static final int FORMAT = 1;

  private SummaryCodec() {}

  /** One summary of all ticks in the buffer. */
  static byte[] encodeWhole(TickBuffer ticks) {
    return encode(ticks, TickBuffer.CAPACITY);
  }

  /** One summary for every {@code ticksPerPart} ticks of the buffer. */
  static byte[] encode(TickBuffer ticks, int ticksPerPart) {
    PackedWriter out = new PackedWriter();
    out.unsigned(FORMAT);
    out.unsigned(Channel.COUNT);
    long[] reference = new long[Channel.COUNT];
    long before = 0;
    for (int from = 0; from < ticks.count; from += ticksPerPart) {
      Summary part = Summary.of(ticks, from, Math.min(from + ticksPerPart, ticks.count));
      write(out, part, before, reference);
      before = part.lastMillis;
    }
    return out.toBytes();
  }

  static Reader reader(byte[] packed) {
    return new Reader(new PackedReader(packed));
  }

  private static void write(PackedWriter out, Summary part, long before, long[] reference) {
    out.signed(part.firstMillis - before);
    out.unsigned(part.lastMillis - part.firstMillis);
    out.unsigned(part.ticks);
    out.unsigned(part.switchesOn);
    out.unsigned(part.perMilleSum);
    for (int i = 0; i < Channel.COUNT; i++) {
      out.unsigned(part.count[i]);
      if (part.count[i] > 0) {
        out.signed(part.first[i] - reference[i]);
        out.unsigned(part.first[i] - part.least[i]);
        out.unsigned(part.greatest[i] - part.first[i]);
        out.signed(part.last[i] - part.first[i]);
        reference[i] = part.last[i];
      }
    }
  }

  /** Goes through packed summaries one by one. */
  static final class Reader {
    private final PackedReader in;
    private final int channels;
    private final long[] reference = new long[Channel.COUNT];
    private final Summary part = new Summary();

    private Reader(PackedReader in) {
      this.in = in;
      if (in.unsigned() != FORMAT) {
        throw JournalException.damaged("a summary of samples has an unknown format");
      }
      channels = in.count(0, Channel.COUNT);
    }

    /** The next summary, always in the same instance, or null at the end. */
    Summary next() {
      if (in.atEnd()) {
        return null;
      }
      long before = part.lastMillis;
      part.clear();
      part.firstMillis = before + in.signed();
      part.lastMillis = part.firstMillis + in.unsigned();
      part.ticks = in.count(1, TickBuffer.CAPACITY);
      part.switchesOn = in.count(0, Integer.MAX_VALUE);
      part.perMilleSum = in.unsigned();
      for (int i = 0; i < channels; i++) {
        part.count[i] = in.count(0, part.ticks);
        if (part.count[i] > 0) {
          part.first[i] = reference[i] + in.signed();
          part.least[i] = part.first[i] - in.unsigned();
          part.greatest[i] = part.first[i] + in.unsigned();
          part.last[i] = part.first[i] + in.signed();
          reference[i] = part.last[i];
        }
      }
      return part;
    }
  }
}
