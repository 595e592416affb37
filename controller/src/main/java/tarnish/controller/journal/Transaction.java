package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * Transactions said in SQL. The connections stay in auto-commit mode, because in the other mode the
 * driver opens the next transaction at once and would hold the lock between two ticks.
 */
final class Transaction {
  private Transaction() {}

  /** Something done on a connection that gives a result. */
  interface Work<T> {
    T on(Connection connection) throws SQLException;
  }

  /** All or nothing. */
  static <T> T write(Connection connection, Work<T> work) throws SQLException {
    return run(connection, "BEGIN IMMEDIATE", work);
  }

  /** Sees one unchanging picture of the file, whatever is written meanwhile. */
  static <T> T read(Connection connection, Work<T> work) throws SQLException {
    return run(connection, "BEGIN", work);
  }

  private static <T> T run(Connection connection, String begin, Work<T> work) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(begin);
      try {
        T result = work.on(connection);
        statement.execute("COMMIT");
        return result;
      } catch (SQLException | RuntimeException e) {
        rollBack(statement, e);
        throw e;
      }
    }
  }

  /** SQLite has already rolled back after some errors; then there is nothing left to undo. */
  private static void rollBack(Statement statement, Exception cause) {
    try {
      statement.execute("ROLLBACK");
    } catch (SQLException e) {
      cause.addSuppressed(e);
    }
  }
}
