package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/** The tables, and how a file of an older version is brought up to date. */
final class Schema {
  /** Marks a file as ours: "TRNS" in ASCII. */
  private static final int APPLICATION_ID = 0x54524E53;

  /**
   * One entry per version, never changed once released.
   *
   * <p>Samples are in three tables. The newest ticks go as short rows to {@code sample_tail}, one
   * page a commit. A full block moves to {@code sample_block}, which holds only its summary and so
   * stays small enough to be read whole, and {@code sample_data}, which holds the summaries of its
   * parts and its ticks.
   */
  private static final List<String> VERSIONS =
      List.of(
          """
          CREATE TABLE batch (
            number INTEGER PRIMARY KEY,
            title TEXT NOT NULL,
            recipe_text TEXT NOT NULL,
            rig_text TEXT NOT NULL,
            started_at TEXT NOT NULL,
            note TEXT NOT NULL,
            seed INTEGER,
            resolutions BLOB,
            end_state TEXT,
            summary_json TEXT);
          CREATE TABLE event (
            batch INTEGER NOT NULL REFERENCES batch,
            millis INTEGER NOT NULL,
            sequence INTEGER NOT NULL,
            wall_time TEXT NOT NULL,
            kind TEXT NOT NULL,
            sentence TEXT NOT NULL,
            data TEXT,
            PRIMARY KEY (batch, millis, sequence)) WITHOUT ROWID;
          CREATE TABLE sample_block (
            id INTEGER PRIMARY KEY,
            batch INTEGER NOT NULL REFERENCES batch,
            first_millis INTEGER NOT NULL,
            last_millis INTEGER NOT NULL,
            last_wall TEXT NOT NULL,
            summary BLOB NOT NULL,
            UNIQUE (batch, first_millis));
          CREATE TABLE sample_data (
            id INTEGER PRIMARY KEY REFERENCES sample_block,
            parts BLOB NOT NULL,
            ticks BLOB NOT NULL);
          CREATE TABLE sample_tail (
            batch INTEGER NOT NULL REFERENCES batch,
            first_millis INTEGER NOT NULL,
            last_millis INTEGER NOT NULL,
            last_wall TEXT NOT NULL,
            ticks BLOB NOT NULL,
            PRIMARY KEY (batch, first_millis)) WITHOUT ROWID
          """,
          // Version 2: a check sum in each row (none in older rows), and notes about the record.
          """
          ALTER TABLE batch ADD COLUMN sum INTEGER;
          ALTER TABLE event ADD COLUMN sum INTEGER;
          ALTER TABLE sample_block ADD COLUMN sum INTEGER;
          ALTER TABLE sample_tail ADD COLUMN sum INTEGER;
          CREATE TABLE note (
            id INTEGER PRIMARY KEY,
            wall_time TEXT NOT NULL,
            kind TEXT NOT NULL,
            sentence TEXT NOT NULL)
          """,
          // Version 3: what was done at the bench while no batch ran, and what people did.
          """
          CREATE TABLE bench_note (
            id INTEGER PRIMARY KEY,
            wall_time TEXT NOT NULL,
            person TEXT NOT NULL,
            kind TEXT NOT NULL,
            sentence TEXT NOT NULL);
          CREATE TABLE act (
            id INTEGER PRIMARY KEY,
            batch INTEGER NOT NULL,
            wall_time TEXT NOT NULL,
            who TEXT NOT NULL,
            whence TEXT NOT NULL,
            what TEXT NOT NULL,
            outcome TEXT NOT NULL)
          """);

  static final int NEWEST = VERSIONS.size();

  private Schema() {}

  /** True if this is a database of some other program. */
  static boolean isForeign(Connection connection) throws SQLException {
    return number(connection, "PRAGMA application_id") != APPLICATION_ID
        && number(connection, "SELECT count(*) FROM sqlite_master") > 0;
  }

  static int version(Connection connection) throws SQLException {
    return number(connection, "PRAGMA user_version");
  }

  /** Brings the file to the newest version in one transaction; all or nothing. */
  static void migrate(Connection connection) throws SQLException {
    int version = version(connection);
    if (version == NEWEST) {
      return;
    }
    Transaction.write(connection, writing -> upgrade(writing, version));
  }

  private static Void upgrade(Connection connection, int version) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      for (String script : VERSIONS.subList(version, NEWEST)) {
        for (String command : script.split(";")) {
          statement.execute(command);
        }
      }
      statement.execute("PRAGMA application_id = " + APPLICATION_ID);
      statement.execute("PRAGMA user_version = " + NEWEST);
    }
    return null;
  }

  private static int number(Connection connection, String query) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      return rows.next() ? rows.getInt(1) : 0;
    }
  }
}
