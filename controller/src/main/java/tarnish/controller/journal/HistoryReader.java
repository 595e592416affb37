package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;

/**
 * Reads a span from as far up the pyramid as its columns allow: block, part of a block, tick. Used
 * within one read transaction by one thread.
 */
final class HistoryReader {
  private static final String BLOCKS =
      "SELECT first_millis, last_millis, last_wall, summary, sum, id FROM sample_block WHERE batch = ?1"
          + " AND first_millis <= ?3 AND first_millis >= coalesce((SELECT max(first_millis)"
          + " FROM sample_block WHERE batch = ?1 AND first_millis <= ?2), ?2)"
          + " ORDER BY first_millis";

  private final Connection connection;
  private final ColumnMerger merger;
  private final TickBuffer ticks = new TickBuffer();

  HistoryReader(Connection connection, ColumnMerger merger) {
    this.connection = connection;
    this.merger = merger;
  }

  void read(int batch, long fromMillis, long toMillis) throws SQLException {
    try (PreparedStatement select = connection.prepareStatement(BLOCKS)) {
      select.setInt(1, batch);
      select.setLong(2, fromMillis);
      select.setLong(3, toMillis);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          byte[] summary = SampleTable.checked(row, "a summary of samples");
          if (merger.fits(row.getLong(1), row.getLong(2))) {
            merger.take(SummaryCodec.reader(summary).next());
          } else if (row.getLong(2) >= fromMillis) {
            readParts(row.getLong(6));
          }
        }
      }
    }
    SampleTable.readTail(connection, batch, ticks);
    merger.take(ticks, fromMillis, toMillis);
  }

  private void readParts(long block) throws SQLException {
    ticks.count = 0;
    SummaryCodec.Reader parts = SummaryCodec.reader(Zip.unpack(bytes("parts", block)));
    for (Summary part = parts.next(); part != null; part = parts.next()) {
      if (merger.fits(part.firstMillis, part.lastMillis)) {
        merger.take(part);
      } else {
        takeTicks(block, part);
      }
    }
  }

  private void takeTicks(long block, Summary part) throws SQLException {
    if (ticks.count == 0) {
      TickCodec.decode(Zip.unpack(bytes("ticks", block)), ticks);
    }
    merger.take(ticks, part.firstMillis, part.lastMillis);
  }

  private byte[] bytes(String column, long block) throws SQLException {
    String query = "SELECT " + column + " FROM sample_data WHERE id = ?";
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setLong(1, block);
      try (ResultSet row = select.executeQuery()) {
        if (!row.next()) {
          throw JournalException.damaged("the ticks of a block of samples are missing");
        }
        return row.getBytes(1);
      }
    }
  }
}
