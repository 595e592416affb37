package tarnish.controller.journal;

import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.zip.CRC32;

/**
 * Check sum of what stands in a row: the database guards its own structure, but not the content of
 * a page against a bit that turned on the medium. CRC-32 as in {@link CRC32}; text as UTF-8 with
 * its length before it, numbers as eight bytes, high byte first.
 */
final class RowSum {
  private final CRC32 sum = new CRC32();

  RowSum add(long number) {
    for (int shift = 56; shift >= 0; shift -= 8) {
      sum.update((int) (number >>> shift) & 0xFF);
    }
    return this;
  }

  RowSum add(String textOrNull) {
    return add(textOrNull == null ? null : textOrNull.getBytes(StandardCharsets.UTF_8));
  }

  RowSum add(byte[] bytesOrNull) {
    if (bytesOrNull == null) {
      return add(-1);
    }
    add(bytesOrNull.length);
    sum.update(bytesOrNull);
    return this;
  }

  long value() {
    return sum.getValue();
  }

  /**
   * Compares with what was stored. Rows of version 1 have no sum and pass.
   *
   * @throws JournalException if the row is not what was written
   */
  void check(ResultSet row, int column, String what) throws SQLException {
    long stored = row.getLong(column);
    if (!row.wasNull() && stored != value()) {
      throw JournalException.damaged(what + " is not what was written");
    }
  }
}
