package tarnish.controller.journal;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.Consumer;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

/**
 * The record in one SQLite file, {@code tarnish.db} in the data folder.
 *
 * <p>Any thread may call. Writing and reading have a connection each, so pages do not hold up the
 * loop. Readers see what is on the disk: the samples of at most the last second are missing, and
 * with {@link Pace#FAST} up to 4096 ticks until {@link #flush}.
 *
 * <p>Every method throws {@link JournalException} where the file or the disk refuses.
 */
public final class SqliteJournal implements Journal {
  private static final int MOST_COLUMNS = 20_000;

  /** About 3000 years: keeps the arithmetic of columns far from overflow. */
  private static final long LATEST_MILLIS = 100_000_000_000_000L;

  private final JournalFile file;
  private final Pace pace;
  private final Object writing = new Object();
  private final Object reading = new Object();
  private BatchWriter writer;
  private boolean closed;
  private volatile String remark;

  private SqliteJournal(JournalFile file, Pace pace) {
    this.file = file;
    this.pace = pace;
    remark = file.openingRemark;
  }

  /** As {@link #open(Path, Pace)} for a real bench. */
  public static SqliteJournal open(Path dataFolder) {
    return open(dataFolder, Pace.DURABLE);
  }

  /**
   * Opens the record in {@code dataFolder}, which is made if it is missing. A file that is damaged
   * or not a record is renamed and a new one begun: see {@link #openingRemark}.
   *
   * @throws JournalException if the folder cannot be used, another Tarnish uses it, or the file was
   *     written by a newer version
   */
  public static SqliteJournal open(Path dataFolder, Pace pace) {
    return new SqliteJournal(JournalFile.open(dataFolder, pace, ""), pace);
  }

  /**
   * As {@link #open(Path)}, but sets the file aside in any case: for a record whose interrupted
   * batch turned out to be damaged when it was to be taken up.
   *
   * @param fault what is wrong, to follow the name of the file
   */
  public static SqliteJournal openAnew(Path dataFolder, String fault) {
    return new SqliteJournal(JournalFile.open(dataFolder, Pace.DURABLE, fault), Pace.DURABLE);
  }

  /**
   * Opens one file only to read it: an archive, a backup, or the record of a service that runs.
   *
   * @throws JournalException if it is missing, damaged, not a record, or written by a newer version
   */
  public static SqliteJournal openToRead(Path file) {
    return new SqliteJournal(JournalFile.openToRead(file), Pace.DURABLE);
  }

  /** What a person must know about how the file was found, or empty. */
  public String openingRemark() {
    return file.openingRemark;
  }

  @Override
  public String remark() {
    return remark;
  }

  @Override
  public List<NoteLine> notes(int limit) {
    return read(connection -> NoteTable.newest(connection, limit));
  }

  /** Keeps a note about the record itself. */
  public void note(String kind, String sentence) {
    synchronized (writing) {
      write(
          "A note cannot be kept",
          connection -> {
            JournalFile.note(connection, kind, sentence);
            return null;
          });
    }
  }

  /**
   * Checks a file that was too large to be checked whole at the start, in the background and with a
   * connection of its own; what it finds becomes the {@link #remark} and a note.
   */
  public void checkLargeFile() {
    if (file.path.toFile().length() > JournalFile.CHECKED_UP_TO_BYTES) {
      LargeFileCheck.start(file.path, this::foundDamaged);
    }
  }

  private void foundDamaged(String fault) {
    remark =
        "The record file "
            + file.path
            + " "
            + fault
            + ". End the batch, keep a copy of the file, and start Tarnish with a new folder.";
    note(DAMAGE_FOUND, remark);
  }

  @Override
  public int begin(BatchHead head) {
    synchronized (writing) {
      flush();
      return write(
          "A new batch cannot be recorded", connection -> BatchTable.insert(connection, head));
    }
  }

  /**
   * {@inheritDoc}
   *
   * <p>If this throws {@link JournalException}, the tick is kept in memory and written with the
   * next call that succeeds: do not hand it in again. Only when the disk has refused for about an
   * hour of ticks are further ones refused and lost.
   *
   * @throws IllegalArgumentException if the time does not grow or the rig's sensors have changed
   * @throws IllegalStateException if the batch has ended
   */
  @Override
  public void tick(
      int batch,
      long millis,
      String wallTime,
      Readings readings,
      List<Request> requests,
      Outputs outputs,
      List<Event> events) {
    synchronized (writing) {
      writerOf(batch).tick(millis, wallTime, readings, requests, outputs, events);
    }
  }

  @Override
  public void end(int batch, String endState, String summaryJson) {
    synchronized (writing) {
      writerOf(batch).end(endState, summaryJson);
      writer = null;
    }
  }

  private BatchWriter writerOf(int batch) {
    if (writer == null || writer.batch() != batch) {
      flush();
      writer =
          write(
              "Batch " + batch + " cannot be taken up",
              connection -> new BatchWriter(connection, file.path, pace, batch));
    }
    return writer;
  }

  /** Writes all ticks that still wait in memory. */
  public void flush() {
    synchronized (writing) {
      if (writer != null) {
        writer.commit();
      }
    }
  }

  @Override
  public OptionalInt unfinished() {
    return read(BatchTable::unfinished);
  }

  @Override
  public BatchHead head(int batch) {
    return read(connection -> BatchTable.stored(connection, batch).head());
  }

  @Override
  public List<BatchLine> batches() {
    return read(BatchTable::lines);
  }

  /** Wall-clock time of the last recorded tick, as the caller gave it; empty if there is none. */
  public String lastWallTime(int batch) {
    return read(connection -> SampleTable.end(connection, batch).lastWallTime());
  }

  /** The folder that holds the record and what lies beside it. */
  public Path folder() {
    return file.path.toAbsolutePath().getParent();
  }

  /** The file that can be read by itself: this one, or a copy of an older one. */
  Path readableFile() {
    return file.readable;
  }

  /** Takes an ended batch out by {@code work}; see {@link Archive#remove}. */
  void remove(int batch, Transaction.Work<Void> work) {
    synchronized (writing) {
      flush();
      boolean ended =
          batches().stream().anyMatch(it -> it.batch() == batch && !it.endState().isEmpty());
      if (!ended) {
        throw new IllegalArgumentException("Batch " + batch + " is not there or has not ended.");
      }
      write("Batch " + batch + " cannot be taken out", work);
    }
  }

  /** Size of the file on the disk with what is not yet merged into it, in bytes. */
  public long bytes() {
    String name = file.path.toString();
    return new java.io.File(name).length() + new java.io.File(name + "-wal").length();
  }

  @Override
  public void playBack(int batch, Consumer<RecordedTick> to) {
    double[] resolutions = read(c -> BatchTable.stored(c, batch).resolutionsOrNull());
    if (resolutions == null) {
      return;
    }
    Player player = new Player(resolutions, to);
    boolean more = true;
    while (more) {
      more = read(connection -> player.fetch(connection, batch));
      player.play();
    }
  }

  @Override
  public List<EventLine> events(int batch, long fromMillis, int limit) {
    return read(connection -> EventTable.lines(connection, batch, fromMillis, limit));
  }

  @Override
  public List<EventLine> entries(int batch, List<String> kinds) {
    return read(connection -> EventTable.ofKinds(connection, batch, kinds));
  }

  /**
   * {@inheritDoc}
   *
   * @throws IllegalArgumentException if the span is empty or no column is asked for
   */
  @Override
  public History history(int batch, long fromMillis, long toMillis, int columns) {
    if (fromMillis < 0 || toMillis < fromMillis || toMillis > LATEST_MILLIS || columns < 1) {
      throw new IllegalArgumentException(
          "cannot draw from " + fromMillis + " to " + toMillis + " ms in " + columns + " columns");
    }
    return read(
        connection -> {
          double[] resolutions = BatchTable.stored(connection, batch).resolutionsOrNull();
          int atMost = Math.min(columns, MOST_COLUMNS);
          ColumnMerger merger = new ColumnMerger(fromMillis, toMillis, atMost);
          new HistoryReader(connection, merger).read(batch, fromMillis, toMillis);
          return merger.toHistory(resolutions == null ? new double[0] : resolutions);
        });
  }

  /** Notes something that was done at the bench while no batch ran; durable when it returns. */
  public void noteBench(BenchNote note) {
    synchronized (writing) {
      write(
          "What was done at the bench cannot be recorded",
          connection -> BenchTable.insert(connection, note));
    }
  }

  /** The newest notes of the bench, at most so many, oldest first. */
  public List<BenchNote> benchNotes(int limit) {
    return read(connection -> BenchTable.newest(connection, limit));
  }

  @Override
  public void record(List<Act> acts) {
    synchronized (writing) {
      write("What people did cannot be recorded", c -> ActTable.insert(c, acts));
    }
  }

  @Override
  public List<Act> acts(int batch, int limit) {
    return read(connection -> ActTable.newest(connection, batch, limit));
  }

  /** Writes what waits if the disk lets it, and lets go of the file in any case. */
  @Override
  public void close() {
    synchronized (writing) {
      synchronized (reading) {
        if (closed) {
          return;
        }
        closed = true;
        try {
          flush();
        } finally {
          file.close();
        }
      }
    }
  }

  private <T> T write(String complaint, Transaction.Work<T> work) {
    try {
      return Transaction.write(file.write, work);
    } catch (SQLException e) {
      throw JournalException.of(complaint, file.path, e);
    }
  }

  private <T> T read(Transaction.Work<T> query) {
    synchronized (reading) {
      try {
        return Transaction.read(file.read, query);
      } catch (SQLException e) {
        throw JournalException.of("The record cannot be read", file.path, e);
      }
    }
  }

  /** For tests that make the disk refuse. */
  Connection writeConnection() {
    return file.write;
  }
}
