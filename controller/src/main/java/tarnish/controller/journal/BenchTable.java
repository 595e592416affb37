package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** The notes of what was done at the bench while no batch ran. A note is only ever added. */
final class BenchTable {
  private BenchTable() {}

  static Void insert(Connection connection, BenchNote note) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT INTO bench_note (wall_time, person, kind, sentence) VALUES (?, ?, ?, ?)")) {
      insert.setString(1, note.wallTime());
      insert.setString(2, note.person());
      insert.setString(3, note.kind());
      insert.setString(4, note.sentence());
      insert.executeUpdate();
    }
    return null;
  }

  static List<BenchNote> newest(Connection connection, int limit) throws SQLException {
    List<BenchNote> notes = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT wall_time, person, kind, sentence FROM bench_note ORDER BY id DESC LIMIT ?")) {
      select.setInt(1, limit);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          notes.add(
              new BenchNote(
                  rows.getString(1), rows.getString(2), rows.getString(3), rows.getString(4)));
        }
      }
    }
    Collections.reverse(notes);
    return notes;
  }
}
