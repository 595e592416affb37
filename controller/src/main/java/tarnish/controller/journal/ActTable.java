package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import tarnish.controller.journal.Journal.Act;

/** Rows of the table of what people did or tried at the page. */
final class ActTable {
  private ActTable() {}

  static Void insert(Connection connection, List<Act> acts) throws SQLException {
    String command =
        "INSERT INTO act (batch, wall_time, who, whence, what, outcome) VALUES (?, ?, ?, ?, ?, ?)";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      for (Act act : acts) {
        insert.setInt(1, act.batch());
        insert.setString(2, act.wallTime());
        insert.setString(3, act.by());
        insert.setString(4, act.whence());
        insert.setString(5, act.what());
        insert.setString(6, act.outcome());
        insert.executeUpdate();
      }
    }
    return null;
  }

  /** The newest {@code limit}, oldest first; of all batches and between them where it is 0. */
  static List<Act> newest(Connection connection, int batch, int limit) throws SQLException {
    String query =
        "SELECT batch, wall_time, who, whence, what, outcome FROM act WHERE ? = 0 OR batch = ?"
            + " ORDER BY id DESC LIMIT ?";
    List<Act> acts = new ArrayList<>();
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      select.setInt(2, batch);
      select.setInt(3, limit);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          acts.add(
              new Act(
                  row.getInt(1),
                  row.getString(2),
                  row.getString(3),
                  row.getString(4),
                  row.getString(5),
                  row.getString(6)));
        }
      }
    }
    Collections.reverse(acts);
    return acts;
  }
}
