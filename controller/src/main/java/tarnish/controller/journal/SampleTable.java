package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;

/** Rows of samples: sealed blocks, and the tail of short rows behind them. */
final class SampleTable {
  /** Ticks to a part of a block with a summary of its own: 16 s at the usual period. */
  private static final int TICKS_PER_PART = 64;

  private SampleTable() {}

  /** How far the samples of a batch reach; millis -1 and an empty wall time if there are none. */
  record End(long lastMillis, String lastWallTime) {}

  static End end(Connection connection, int batch) throws SQLException {
    String query =
        "SELECT last_millis, last_wall FROM (SELECT last_millis, last_wall FROM sample_block"
            + " WHERE batch = ?1 ORDER BY first_millis DESC LIMIT 1)"
            + " UNION ALL SELECT last_millis, last_wall FROM (SELECT last_millis, last_wall"
            + " FROM sample_tail WHERE batch = ?1 ORDER BY first_millis DESC LIMIT 1)"
            + " ORDER BY last_millis DESC LIMIT 1";
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      try (ResultSet row = select.executeQuery()) {
        return row.next() ? new End(row.getLong(1), row.getString(2)) : new End(-1, "");
      }
    }
  }

  private static RowSum sum(long firstMillis, long lastMillis, String lastWall, byte[] packed) {
    return new RowSum().add(firstMillis).add(lastMillis).add(lastWall).add(packed);
  }

  /** Writes ticks from index {@code from} on as a row of the tail. */
  static void appendTail(
      Connection connection, int batch, TickBuffer ticks, int from, String lastWallTime)
      throws SQLException {
    String command =
        "INSERT INTO sample_tail (batch, first_millis, last_millis, last_wall, ticks, sum)"
            + " VALUES (?, ?, ?, ?, ?, ?)";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      insert.setInt(1, batch);
      insert.setLong(2, ticks.millis[from]);
      insert.setLong(3, ticks.lastMillis());
      insert.setString(4, lastWallTime);
      byte[] packed = TickCodec.encode(ticks, from, ticks.count);
      insert.setBytes(5, packed);
      insert.setLong(6, sum(ticks.millis[from], ticks.lastMillis(), lastWallTime, packed).value());
      insert.executeUpdate();
    }
  }

  /** Writes all ticks as one sealed block and takes its rows out of the tail. */
  static void seal(Connection connection, int batch, TickBuffer ticks, String lastWallTime)
      throws SQLException {
    String block =
        "INSERT INTO sample_block (batch, first_millis, last_millis, last_wall, summary, sum)"
            + " VALUES (?, ?, ?, ?, ?, ?) RETURNING id";
    String data = "INSERT INTO sample_data (id, parts, ticks) VALUES (?, ?, ?)";
    String clear = "DELETE FROM sample_tail WHERE batch = ? AND first_millis <= ?";
    try (PreparedStatement insertBlock = connection.prepareStatement(block);
        PreparedStatement insertData = connection.prepareStatement(data);
        PreparedStatement clearTail = connection.prepareStatement(clear)) {
      insertBlock.setInt(1, batch);
      insertBlock.setLong(2, ticks.firstMillis());
      insertBlock.setLong(3, ticks.lastMillis());
      insertBlock.setString(4, lastWallTime);
      byte[] summary = SummaryCodec.encodeWhole(ticks);
      insertBlock.setBytes(5, summary);
      insertBlock.setLong(
          6, sum(ticks.firstMillis(), ticks.lastMillis(), lastWallTime, summary).value());
      try (ResultSet row = insertBlock.executeQuery()) {
        row.next();
        insertData.setLong(1, row.getLong(1));
      }
      insertData.setBytes(2, Zip.pack(SummaryCodec.encode(ticks, TICKS_PER_PART)));
      insertData.setBytes(3, Zip.pack(TickCodec.encode(ticks, 0, ticks.count)));
      insertData.executeUpdate();
      clearTail.setInt(1, batch);
      clearTail.setLong(2, ticks.lastMillis());
      clearTail.executeUpdate();
    }
  }

  /** Replaces {@code into} by the tail; its count is 0 if there is none. */
  static void readTail(Connection connection, int batch, TickBuffer into) throws SQLException {
    into.count = 0;
    String query =
        "SELECT first_millis, last_millis, last_wall, ticks, sum FROM sample_tail WHERE batch = ?"
            + " ORDER BY first_millis";
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          byte[] packed = checked(row, "the newest samples");
          TickCodec.decode(packed, into);
        }
      }
    }
  }

  /** The packed bytes in column 4, behind first and last time and wall time, with a sum in 5. */
  static byte[] checked(ResultSet row, String what) throws SQLException {
    byte[] packed = row.getBytes(4);
    sum(row.getLong(1), row.getLong(2), row.getString(3), packed).check(row, 5, what);
    return packed;
  }

  /** Replaces {@code into} by the first sealed block that begins after {@code afterMillis}. */
  static boolean readBlockAfter(Connection connection, int batch, long afterMillis, TickBuffer into)
      throws SQLException {
    String query =
        "SELECT first_millis, last_millis, last_wall, summary, sum, ticks"
            + " FROM sample_block JOIN sample_data USING (id)"
            + " WHERE batch = ? AND first_millis > ? ORDER BY first_millis LIMIT 1";
    into.count = 0;
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      select.setLong(2, afterMillis);
      try (ResultSet row = select.executeQuery()) {
        if (!row.next()) {
          return false;
        }
        checked(row, "a block of samples");
        TickCodec.decode(Zip.unpack(row.getBytes(6)), into);
        if (into.firstMillis() != row.getLong(1) || into.lastMillis() != row.getLong(2)) {
          throw JournalException.damaged("a block of samples has other times than its row");
        }
        return true;
      }
    }
  }
}
