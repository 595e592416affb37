package tarnish.controller.journal;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Looks for damage in the write-ahead log before the database reads it. SQLite stops at the first
 * frame whose check sum is wrong and says nothing, which is right for a write that a power cut tore
 * off, but would silently drop what was committed behind a bit that turned.
 *
 * <p>Layout and sums: "WAL-mode File Format" of the SQLite documentation. What is torn off is in
 * the last transaction only; a bad frame with a commit behind its own transaction is damage. In the
 * last transaction the two cannot be told apart.
 */
final class LogCheck {
  private static final int HEADER = 32;
  private static final int FRAME_HEADER = 24;
  private static final int MAGIC = 0x377f0682;

  private final ByteBuffer log;
  private final ByteOrder order;
  private final int pageSize;
  private int sum1;
  private int sum2;

  private LogCheck(ByteBuffer log) {
    this.log = log;
    // The lowest bit of the magic number names the byte order of the sums; all else is big-endian.
    order = (log.getInt(0) & 1) == 1 ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
    pageSize = log.getInt(8);
  }

  /** What is wrong with the log, in words; empty if it is sound, torn at its end, or not there. */
  static String faultOf(Path file) throws IOException {
    if (!Files.exists(file) || Files.size(file) <= HEADER) {
      return "";
    }
    ByteBuffer log = ByteBuffer.wrap(Files.readAllBytes(file));
    if ((log.getInt(0) & ~1) != MAGIC) {
      return log.getInt(0) == 0 ? "" : "its head is not that of a log";
    }
    return new LogCheck(log).fault();
  }

  private String fault() {
    add(0, 24);
    if (sum1 != log.getInt(24) || sum2 != log.getInt(28)) {
      return "its head is damaged";
    }
    int size = FRAME_HEADER + pageSize;
    if (pageSize < 512 || pageSize > 65_536) {
      return "its head is damaged";
    }
    int frames = (log.capacity() - HEADER) / size;
    int good = 0;
    while (good < frames && isGood(HEADER + good * size)) {
      good++;
    }
    int commits = 0;
    int lost = 0;
    for (int i = good; i < frames; i++) {
      int at = HEADER + i * size;
      if (isOfThisLog(at)) {
        lost++;
        commits += log.getInt(at + 4) != 0 ? 1 : 0;
      }
    }
    return commits > 1
        ? lost + " pages of it, of " + commits + " transactions, cannot be trusted"
        : "";
  }

  private boolean isOfThisLog(int at) {
    return log.getInt(at + 8) == log.getInt(16) && log.getInt(at + 12) == log.getInt(20);
  }

  private boolean isGood(int at) {
    if (!isOfThisLog(at)) {
      return false;
    }
    add(at, 8);
    add(at + FRAME_HEADER, pageSize);
    return sum1 == log.getInt(at + 16) && sum2 == log.getInt(at + 20);
  }

  /** s1 += x(2i) + s2, s2 += x(2i+1) + s1. */
  private void add(int from, int length) {
    ByteBuffer words = log.duplicate().order(order);
    for (int at = from; at < from + length; at += 8) {
      sum1 += words.getInt(at) + sum2;
      sum2 += words.getInt(at + 4) + sum1;
    }
  }
}
