package tarnish.controller.journal;

/** Reads what {@link PackedWriter} wrote. */
final class PackedReader {
  private final byte[] bytes;
  private int at;

  PackedReader(byte[] bytes) {
    this.bytes = bytes;
  }

  long unsigned() {
    long value = 0;
    for (int shift = 0; shift < 70; shift += 7) {
      if (at >= bytes.length) {
        throw JournalException.damaged("a block of samples ends too early");
      }
      byte next = bytes[at++];
      value |= (long) (next & 0x7f) << shift;
      if (next >= 0) {
        return value;
      }
    }
    throw JournalException.damaged("a number in a block of samples has no end");
  }

  long signed() {
    long value = unsigned();
    return (value >>> 1) ^ -(value & 1);
  }

  /** A count that must lie between {@code least} and {@code greatest}. */
  int count(int least, int greatest) {
    long value = unsigned();
    if (value < least || value > greatest) {
      throw JournalException.damaged(
          "found " + value + " in a block of samples where " + least + " to " + greatest + " fit");
    }
    return (int) value;
  }

  boolean atEnd() {
    return at == bytes.length;
  }
}
