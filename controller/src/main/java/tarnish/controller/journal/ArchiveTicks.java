package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;

/** Every tick of an archive in plain numbers: one row a tick, one column a fitted channel. */
final class ArchiveTicks {
  private ArchiveTicks() {}

  static Void write(Connection connection, Journal journal, int batch) throws SQLException {
    double[] resolutions = BatchTable.stored(connection, batch).resolutionsOrNull();
    List<Channel> fitted = new ArrayList<>();
    StringBuilder columns = new StringBuilder("time_s REAL PRIMARY KEY");
    for (Channel channel : Channel.values()) {
      int i = channel.ordinal();
      if (resolutions != null && i < resolutions.length && resolutions[i] > 0) {
        fitted.add(channel);
        String unit = ArchiveNumbers.unit(channel.kind());
        columns.append(", \"").append(channel.words()).append(" [").append(unit).append("]\" REAL");
      }
    }
    columns.append(", switches INTEGER NOT NULL, \"heater duty [1]\" REAL NOT NULL");
    try (Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE tick (" + columns + ")");
    }
    String command = "INSERT INTO tick VALUES (" + "?, ".repeat(fitted.size() + 2) + "?)";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      journal.playBack(batch, tick -> insert(insert, fitted, tick));
    } catch (Refusal e) {
      throw e.reason;
    }
    return null;
  }

  private static void insert(
      PreparedStatement insert, List<Channel> fitted, Journal.RecordedTick tick) {
    try {
      Readings readings = tick.readings();
      insert.setDouble(1, tick.millis() / 1e3);
      int at = 2;
      for (Channel channel : fitted) {
        insert.setObject(
            at++,
            readings.isGood(channel)
                ? (Double) (readings.steps(channel) * readings.resolution(channel))
                : null);
      }
      insert.setInt(at++, tick.outputs().switches());
      insert.setDouble(at, tick.outputs().heaterPerMille() / 1e3);
      insert.executeUpdate();
    } catch (SQLException e) {
      throw new Refusal(e);
    }
  }

  /** Carries a refusal of the database through the player. */
  private static final class Refusal extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final transient SQLException reason;

    Refusal(SQLException reason) {
      super(reason);
      this.reason = reason;
    }
  }
}
