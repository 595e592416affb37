package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import tarnish.shared.reading.Channel;

/** The tables of an archive with the channels and the extremes of each block in plain numbers. */
final class ArchiveNumbers {
  private static final String CHANNELS =
      "CREATE TABLE channel (number INTEGER PRIMARY KEY, name TEXT NOT NULL, quantity TEXT NOT NULL,"
          + " unit TEXT NOT NULL, resolution REAL, fitted INTEGER NOT NULL)";
  private static final String BLOCKS =
      "CREATE TABLE block_value (block INTEGER NOT NULL, channel INTEGER NOT NULL, from_s REAL NOT"
          + " NULL, to_s REAL NOT NULL, least REAL NOT NULL, greatest REAL NOT NULL, first REAL NOT"
          + " NULL, last REAL NOT NULL, good_ticks INTEGER NOT NULL,"
          + " PRIMARY KEY (block, channel)) WITHOUT ROWID";

  private ArchiveNumbers() {}

  static void write(Connection connection, int batch, double[] resolutions) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(CHANNELS);
      statement.execute(BLOCKS);
    }
    for (Channel channel : Channel.values()) {
      int i = channel.ordinal();
      boolean fitted = i < resolutions.length && resolutions[i] > 0;
      ArchiveWords.row(
          connection,
          "channel",
          i,
          channel.words(),
          channel.kind().name().toLowerCase(java.util.Locale.ROOT),
          unit(channel.kind()),
          fitted ? resolutions[i] : null,
          fitted ? 1 : 0);
    }
    blocks(connection, batch, resolutions);
  }

  /** The SI unit of a kind of reading; 1 for a fraction, and 1 or 0 for a contact. */
  static String unit(Channel.Kind kind) {
    return switch (kind) {
      case TEMPERATURE -> "K";
      case PRESSURE -> "Pa";
      case FRACTION, CONTACT -> "1";
    };
  }

  private static void blocks(Connection connection, int batch, double[] resolutions)
      throws SQLException {
    String query = "SELECT id, summary FROM sample_block WHERE batch = ? ORDER BY first_millis";
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          Summary summary = SummaryCodec.reader(row.getBytes(2)).next();
          block(connection, row.getLong(1), summary, resolutions);
        }
      }
    }
  }

  private static void block(Connection connection, long id, Summary summary, double[] resolutions)
      throws SQLException {
    for (int i = 0; i < resolutions.length && i < Channel.COUNT; i++) {
      if (summary.count[i] > 0) {
        ArchiveWords.row(
            connection,
            "block_value",
            id,
            i,
            summary.firstMillis / 1e3,
            summary.lastMillis / 1e3,
            summary.least[i] * resolutions[i],
            summary.greatest[i] * resolutions[i],
            summary.first[i] * resolutions[i],
            summary.last[i] * resolutions[i],
            summary.count[i]);
      }
    }
  }
}
