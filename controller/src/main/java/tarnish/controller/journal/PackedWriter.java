package tarnish.controller.journal;

import java.util.Arrays;

/** Whole numbers in as few bytes as they need. Not thread-safe; reusable. */
final class PackedWriter {
  private byte[] bytes = new byte[4096];
  private int length;

  /** Seven bits to a byte, lowest first; the top bit says that more follow. */
  void unsigned(long value) {
    if (length + 10 > bytes.length) {
      bytes = Arrays.copyOf(bytes, bytes.length * 2);
    }
    long rest = value;
    while ((rest & ~0x7fL) != 0) {
      bytes[length++] = (byte) (rest | 0x80);
      rest >>>= 7;
    }
    bytes[length++] = (byte) rest;
  }

  /** Zig-zag: 0, -1, 1, -2 become 0, 1, 2, 3, so that small numbers of either sign stay short. */
  void signed(long value) {
    unsigned((value << 1) ^ (value >> 63));
  }

  byte[] toBytes() {
    return Arrays.copyOf(bytes, length);
  }

  void clear() {
    length = 0;
  }
}
