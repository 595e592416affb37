package tarnish.controller.journal;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.journal.Journal.RecordedTick;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

/** Plays a batch back block by block, so that memory does not grow with its length. */
final class Player {
  private final Consumer<RecordedTick> to;
  private final Readings readings;
  private final TickBuffer ticks = new TickBuffer();
  private List<EventTable.Row> rows = List.of();
  private int nextRow;
  private long playedToMillis = -1;
  private Outputs outputs = Outputs.OFF;

  Player(double[] resolutions, Consumer<RecordedTick> to) {
    this.readings = new Readings(Arrays.copyOf(resolutions, Channel.COUNT));
    this.to = to;
  }

  /** Gets the next block, or else the tail, with its events; false if no more will follow. */
  boolean fetch(Connection connection, int batch) throws SQLException {
    boolean block = SampleTable.readBlockAfter(connection, batch, playedToMillis, ticks);
    if (!block) {
      SampleTable.readTail(connection, batch, ticks);
    }
    if (ticks.count > 0) {
      rows = EventTable.between(connection, batch, playedToMillis, ticks.lastMillis());
    }
    nextRow = 0;
    return block;
  }

  /** Hands on what was fetched, without holding the file. */
  void play() {
    for (int i = 0; i < ticks.count; i++) {
      long millis = ticks.millis[i];
      ticks.restore(i, readings);
      outputs = ticks.outputs(i, outputs);
      boolean quiet = nextRow == rows.size() || rows.get(nextRow).millis() > millis;
      to.accept(
          quiet
              ? new RecordedTick(millis, "", readings, List.of(), outputs, List.of())
              : eventful(millis));
      playedToMillis = millis;
    }
  }

  private RecordedTick eventful(long millis) {
    List<Request> requests = new ArrayList<>();
    List<EventLine> events = new ArrayList<>();
    String wallTime = rows.get(nextRow).line().wallTime();
    for (; nextRow < rows.size() && rows.get(nextRow).millis() == millis; nextRow++) {
      EventTable.Row row = rows.get(nextRow);
      if (row.requestJsonOrNull() != null) {
        requests.add(RequestCodec.decode(row.requestJsonOrNull()));
      } else {
        events.add(row.line());
      }
    }
    return new RecordedTick(millis, wallTime, readings, requests, outputs, events);
  }
}
