package tarnish.controller.journal;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Objects;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

/**
 * The ticks and events of one batch on their way into the file. What could not be written stays
 * here and goes with the next attempt. Used by one thread at a time.
 */
final class BatchWriter {
  private static final Channel[] CHANNELS = Channel.values();

  /** Samples are on disk at the latest this long after their tick, in batch time. */
  private static final long LATEST_MILLIS = 1000;

  /** A pause this many times longer than the shortest period begins a new block. */
  private static final int PERIODS_TO_GAP = 20;

  /** Ticks kept while the disk refuses, about an hour of them; then ticks are lost. */
  private static final int MOST_WAITING = 14 * TickBuffer.CAPACITY;

  private record Full(TickBuffer ticks, String lastWallTime) {}

  private final Connection connection;
  private final Path file;
  private final Pace pace;
  private final int batch;
  private final Deque<Full> full = new ArrayDeque<>();
  private final List<EventTable.Row> events = new ArrayList<>();
  private TickBuffer current = new TickBuffer();
  private int currentInTail;
  private int waiting;
  private double[] resolutions;
  private boolean resolutionsStored;
  private long lastMillis;
  private long durableMillis;
  private String lastWallTime;
  private long shortestMillis = Long.MAX_VALUE;

  /** Takes up the batch where its record ends; the tail left by a crash becomes a block. */
  BatchWriter(Connection connection, Path file, Pace pace, int batch) throws SQLException {
    this.connection = connection;
    this.file = file;
    this.pace = pace;
    this.batch = batch;
    BatchTable.Stored stored = BatchTable.stored(connection, batch);
    if (stored.endStateOrNull() != null) {
      throw new IllegalStateException(
          "batch " + batch + " has ended (" + stored.endStateOrNull() + "): begin a new one");
    }
    resolutions = stored.resolutionsOrNull();
    resolutionsStored = resolutions != null;
    SampleTable.End end = SampleTable.end(connection, batch);
    lastMillis = end.lastMillis();
    lastWallTime = end.lastWallTime();
    durableMillis = lastMillis < 0 ? -LATEST_MILLIS : lastMillis;
    SampleTable.readTail(connection, batch, current);
    if (current.count > 0) {
      closeCurrent();
    }
  }

  int batch() {
    return batch;
  }

  void tick(
      long millis,
      String wallTime,
      Readings readings,
      List<Request> requests,
      Outputs outputs,
      List<Event> newEvents) {
    if (waiting >= MOST_WAITING) {
      commit();
    }
    check(millis, readings);
    List<EventTable.Row> rows = EventTable.rows(millis, wallTime, requests, newEvents);
    if (isGap(millis)) {
      closeCurrent();
    }
    current.add(millis, readings, outputs);
    waiting++;
    events.addAll(rows);
    lastMillis = millis;
    lastWallTime = Objects.requireNonNullElse(wallTime, "");
    if (current.isFull()) {
      closeCurrent();
    }
    if (mustCommit(millis)) {
      commit();
    }
  }

  private boolean mustCommit(long millis) {
    if (pace == Pace.FAST) {
      return full.size() >= pace.blocksToCommit();
    }
    return !events.isEmpty() || !full.isEmpty() || millis - durableMillis >= LATEST_MILLIS;
  }

  private void check(long millis, Readings readings) {
    if (millis <= lastMillis) {
      throw new IllegalArgumentException(
          "time since start must grow: " + millis + " ms came after " + lastMillis + " ms");
    }
    if (resolutions == null) {
      resolutions = new double[Channel.COUNT];
      for (int i = 0; i < Channel.COUNT; i++) {
        resolutions[i] = readings.resolution(CHANNELS[i]);
      }
    }
    for (int i = 0; i < Channel.COUNT; i++) {
      if (readings.resolution(CHANNELS[i]) != resolutions(i)) {
        throw new IllegalArgumentException(
            "resolution of "
                + CHANNELS[i].words()
                + " changed in mid-batch from "
                + resolutions(i)
                + " to "
                + readings.resolution(CHANNELS[i])
                + ": a batch keeps the sensors it began with");
      }
    }
  }

  /** A channel that the record does not know yet was not fitted when the batch began. */
  private double resolutions(int channel) {
    return channel < resolutions.length ? resolutions[channel] : 0;
  }

  private boolean isGap(long millis) {
    if (current.count == 0) {
      return false;
    }
    long period = millis - current.lastMillis();
    shortestMillis = Math.min(shortestMillis, period);
    return period / PERIODS_TO_GAP > shortestMillis;
  }

  private void closeCurrent() {
    full.add(new Full(current, lastWallTime));
    current = new TickBuffer();
    currentInTail = 0;
  }

  /** Writes all that waits, in one transaction. */
  void commit() {
    transact("Batch " + batch + " cannot be recorded", connection -> write());
  }

  /** Writes all that waits, seals the last block and marks the end, in one transaction. */
  void end(String endState, String summaryJson) {
    if (current.count > 0) {
      closeCurrent();
    }
    transact(
        "The end of batch " + batch + " cannot be recorded",
        connection -> {
          write();
          BatchTable.end(connection, batch, endState, summaryJson);
          return null;
        });
  }

  private void transact(String complaint, Transaction.Work<Void> work) {
    try {
      Transaction.write(connection, work);
    } catch (SQLException e) {
      throw JournalException.of(complaint, file, e);
    }
    written();
  }

  private Void write() throws SQLException {
    if (!resolutionsStored && resolutions != null) {
      BatchTable.storeResolutions(connection, batch, resolutions);
    }
    for (Full each : full) {
      SampleTable.seal(connection, batch, each.ticks(), each.lastWallTime());
    }
    if (current.count > currentInTail) {
      SampleTable.appendTail(connection, batch, current, currentInTail, lastWallTime);
    }
    EventTable.insert(connection, batch, events);
    return null;
  }

  private void written() {
    resolutionsStored = resolutions != null;
    full.clear();
    waiting = 0;
    events.clear();
    currentInTail = current.count;
    durableMillis = lastMillis;
  }
}
