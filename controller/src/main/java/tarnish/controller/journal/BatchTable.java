package tarnish.controller.journal;

import java.nio.ByteBuffer;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.BatchLine;

/** Rows of the table of batches. */
final class BatchTable {
  private BatchTable() {}

  static int insert(Connection connection, BatchHead head) throws SQLException {
    String command =
        "INSERT INTO batch (title, recipe_text, rig_text, started_at, note, seed, sum)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING number";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      insert.setString(1, head.title());
      insert.setString(2, head.recipeText());
      insert.setString(3, head.rigText());
      insert.setString(4, head.startedAt());
      insert.setString(5, head.note());
      if (head.seed() == null) {
        insert.setNull(6, Types.INTEGER);
      } else {
        insert.setLong(6, head.seed());
      }
      insert.setLong(7, sum(head).value());
      try (ResultSet rows = insert.executeQuery()) {
        rows.next();
        return rows.getInt(1);
      }
    }
  }

  private static RowSum sum(BatchHead head) {
    return new RowSum()
        .add(head.title())
        .add(head.recipeText())
        .add(head.rigText())
        .add(head.startedAt())
        .add(head.note())
        .add(head.seed() == null ? -1 : head.seed());
  }

  static void storeResolutions(Connection connection, int batch, double[] resolutions)
      throws SQLException {
    ByteBuffer bytes = ByteBuffer.allocate(resolutions.length * Double.BYTES);
    bytes.asDoubleBuffer().put(resolutions);
    String command = "UPDATE batch SET resolutions = ? WHERE number = ?";
    try (PreparedStatement update = connection.prepareStatement(command)) {
      update.setBytes(1, bytes.array());
      update.setInt(2, batch);
      update.executeUpdate();
    }
  }

  static void end(Connection connection, int batch, String endState, String summaryJson)
      throws SQLException {
    String command = "UPDATE batch SET end_state = ?, summary_json = ? WHERE number = ?";
    try (PreparedStatement update = connection.prepareStatement(command)) {
      update.setString(1, endState);
      update.setString(2, summaryJson);
      update.setInt(3, batch);
      update.executeUpdate();
    }
  }

  static OptionalInt unfinished(Connection connection) throws SQLException {
    String query = "SELECT number FROM batch WHERE end_state IS NULL ORDER BY number DESC LIMIT 1";
    try (PreparedStatement select = connection.prepareStatement(query);
        ResultSet rows = select.executeQuery()) {
      return rows.next() ? OptionalInt.of(rows.getInt(1)) : OptionalInt.empty();
    }
  }

  /** What is kept of a batch besides its rows of samples and events. */
  record Stored(BatchHead head, double[] resolutionsOrNull, String endStateOrNull) {}

  static Stored stored(Connection connection, int batch) throws SQLException {
    String query =
        "SELECT title, recipe_text, rig_text, started_at, note, seed, resolutions, end_state,"
            + " sum FROM batch WHERE number = ?";
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      try (ResultSet row = select.executeQuery()) {
        if (!row.next()) {
          throw new IllegalArgumentException("there is no batch " + batch + " in the record");
        }
        long seed = row.getLong(6);
        Long seedOrNull = row.wasNull() ? null : seed;
        BatchHead head =
            new BatchHead(
                row.getString(1),
                row.getString(2),
                row.getString(3),
                row.getString(4),
                row.getString(5),
                seedOrNull);
        sum(head).check(row, 9, "the head of batch " + batch);
        return new Stored(head, doubles(row.getBytes(7)), row.getString(8));
      }
    }
  }

  /** All batches, the newest first. */
  static List<BatchLine> lines(Connection connection) throws SQLException {
    String query =
        "SELECT number, title, started_at, note, end_state, summary_json FROM batch"
            + " ORDER BY number DESC";
    List<BatchLine> lines = new ArrayList<>();
    try (PreparedStatement select = connection.prepareStatement(query);
        ResultSet row = select.executeQuery()) {
      while (row.next()) {
        int batch = row.getInt(1);
        lines.add(
            new BatchLine(
                batch,
                row.getString(2),
                row.getString(3),
                row.getString(4),
                orEmpty(row.getString(5)),
                SampleTable.end(connection, batch).lastMillis(),
                orEmpty(row.getString(6))));
      }
    }
    return lines;
  }

  private static String orEmpty(String text) {
    return text == null ? "" : text;
  }

  private static double[] doubles(byte[] bytes) {
    if (bytes == null) {
      return null;
    }
    double[] values = new double[bytes.length / Double.BYTES];
    ByteBuffer.wrap(bytes).asDoubleBuffer().get(values);
    return values;
  }
}
