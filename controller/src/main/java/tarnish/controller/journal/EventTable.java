package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal.EventLine;

/** Rows of events and requests. Those of one tick are numbered on, the requests first. */
final class EventTable {
  /** Begins the kind of a request; kinds of events are plain words without a point. */
  static final String REQUEST = "Request.";

  private EventTable() {}

  /** One row; {@code requestJsonOrNull} tells a request from an event. */
  record Row(long millis, int sequence, EventLine line, String requestJsonOrNull) {}

  /** A missing text becomes an empty one: no event may keep the ticks around it off the disk. */
  static List<Row> rows(
      long millis, String wallTimeOrNull, List<Request> requests, List<Event> events) {
    String wallTime = text(wallTimeOrNull);
    List<Row> rows = new ArrayList<>(requests.size() + events.size());
    for (Request request : requests) {
      String kind = REQUEST + request.getClass().getSimpleName();
      EventLine line = new EventLine(millis, wallTime, kind, RequestCodec.sentence(request));
      rows.add(new Row(millis, rows.size(), line, RequestCodec.encode(request)));
    }
    for (Event event : events) {
      EventLine line = new EventLine(millis, wallTime, event.kind(), text(event.sentence()));
      rows.add(new Row(millis, rows.size(), line, null));
    }
    return rows;
  }

  private static String text(String orNull) {
    return Objects.requireNonNullElse(orNull, "");
  }

  private static RowSum sum(Row row) {
    return new RowSum()
        .add(row.millis())
        .add(row.sequence())
        .add(row.line().wallTime())
        .add(row.line().kind())
        .add(row.line().sentence())
        .add(row.requestJsonOrNull());
  }

  static void insert(Connection connection, int batch, List<Row> rows) throws SQLException {
    if (rows.isEmpty()) {
      return;
    }
    String command =
        "INSERT INTO event (batch, millis, sequence, wall_time, kind, sentence, data, sum)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?)";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      for (Row row : rows) {
        insert.setInt(1, batch);
        insert.setLong(2, row.millis());
        insert.setInt(3, row.sequence());
        insert.setString(4, row.line().wallTime());
        insert.setString(5, row.line().kind());
        insert.setString(6, row.line().sentence());
        insert.setString(7, row.requestJsonOrNull());
        insert.setLong(8, sum(row).value());
        insert.executeUpdate();
      }
    }
  }

  /** Rows later than {@code afterMillis} up to and including {@code toMillis}, in order. */
  static List<Row> between(Connection connection, int batch, long afterMillis, long toMillis)
      throws SQLException {
    String query =
        "SELECT millis, sequence, wall_time, kind, sentence, data, sum FROM event"
            + " WHERE batch = ? AND millis > ? AND millis <= ? ORDER BY millis, sequence";
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      select.setLong(2, afterMillis);
      select.setLong(3, toMillis);
      return read(select);
    }
  }

  /** See {@link Journal#entries}. */
  static List<EventLine> ofKinds(Connection connection, int batch, List<String> kinds)
      throws SQLException {
    String marks = String.join(", ", Collections.nCopies(kinds.size(), "?"));
    String query =
        "SELECT millis, sequence, wall_time, kind, sentence, data, sum FROM event WHERE batch = ? AND"
            + (" kind IN (" + marks + ") ORDER BY millis, sequence");
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      for (int i = 0; i < kinds.size(); i++) {
        select.setString(2 + i, kinds.get(i));
      }
      return read(select).stream().map(Row::line).toList();
    }
  }

  /** See {@link Journal#events}. */
  static List<EventLine> lines(Connection connection, int batch, long fromMillis, int limit)
      throws SQLException {
    boolean newest = fromMillis < 0;
    String order = newest ? "millis DESC, sequence DESC" : "millis, sequence";
    String query =
        "SELECT millis, sequence, wall_time, kind, sentence, data, sum FROM event"
            + (" WHERE batch = ? AND millis >= ? ORDER BY " + order + " LIMIT ?");
    List<EventLine> lines = new ArrayList<>();
    try (PreparedStatement select = connection.prepareStatement(query)) {
      select.setInt(1, batch);
      select.setLong(2, newest ? Long.MIN_VALUE : fromMillis);
      select.setInt(3, Math.max(limit, 0));
      read(select).forEach(row -> lines.add(row.line()));
    }
    if (newest) {
      Collections.reverse(lines);
    }
    return lines;
  }

  private static List<Row> read(PreparedStatement select) throws SQLException {
    List<Row> rows = new ArrayList<>();
    try (ResultSet row = select.executeQuery()) {
      while (row.next()) {
        long millis = row.getLong(1);
        EventLine line =
            new EventLine(millis, row.getString(3), row.getString(4), row.getString(5));
        Row read = new Row(millis, row.getInt(2), line, row.getString(6));
        sum(read).check(row, 7, "an event at " + millis + " ms");
        rows.add(read);
      }
    }
    return rows;
  }
}
