package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import tarnish.controller.journal.Journal.NoteLine;

/** Rows of notes: what happened to the record itself, outside of any batch. */
final class NoteTable {
  private NoteTable() {}

  static void insert(Connection connection, NoteLine note) throws SQLException {
    String command = "INSERT INTO note (wall_time, kind, sentence) VALUES (?, ?, ?)";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      insert.setString(1, note.wallTime());
      insert.setString(2, note.kind());
      insert.setString(3, note.sentence());
      insert.executeUpdate();
    }
  }

  /** The newest first. */
  static List<NoteLine> newest(Connection connection, int limit) throws SQLException {
    String query = "SELECT wall_time, kind, sentence FROM note ORDER BY id DESC LIMIT ?";
    List<NoteLine> notes = new ArrayList<>();
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, limit);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          notes.add(new NoteLine(row.getString(1), row.getString(2), row.getString(3)));
        }
      }
    }
    return notes;
  }
}
