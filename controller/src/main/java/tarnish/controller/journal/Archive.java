package tarnish.controller.journal;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.zip.CRC32;
import org.sqlite.SQLiteConfig;
import tarnish.controller.journal.JournalException.Trouble;

/**
 * One ended batch in a file of its own: the same tables as the record, so that everything that
 * reads a record reads it, and tables that explain it to whoever has nothing but SQLite.
 */
public final class Archive {
  private static final String[] OF_A_BATCH = {"event", "sample_block", "sample_tail"};

  private Archive() {}

  /**
   * Writes the batch to {@code to}, reads it back, compares it with the record, and only then gives
   * the file its name. The record is not changed; a service may go on writing it.
   *
   * @param plain also every tick in plain numbers, about twenty times the size
   * @return its size in bytes
   * @throws JournalException if {@code to} is there already, or a file refuses
   * @throws IllegalArgumentException if there is no such batch or it has not ended
   */
  public static long write(Path record, int batch, Path to, boolean plain, String madeBy) {
    if (Files.exists(to)) {
      throw new JournalException(Trouble.EXISTS, "The archive cannot be written (" + to + ")");
    }
    Path part = to.resolveSibling(to.getFileName() + ".part");
    try {
      Files.createDirectories(to.toAbsolutePath().getParent());
      Files.deleteIfExists(part);
      String sum = fill(record, batch, part);
      describe(part, batch, plain, madeBy);
      try (SqliteJournal back = SqliteJournal.openToRead(part)) {
        if (!sum.equals(sumOf(back, batch))) {
          throw new JournalException(Trouble.DAMAGED_COPY, "Batch " + batch + " reads otherwise");
        }
      }
      Backup.finish(part, to);
      return Files.size(to);
    } catch (SQLException e) {
      throw JournalException.of("The archive cannot be written", to, e);
    } catch (IOException e) {
      throw new JournalException(Trouble.DEVICE, "The archive cannot be written (" + to + ")", e);
    }
  }

  /** Copies the rows in one transaction and gives the check sum of what the record holds. */
  private static String fill(Path record, int batch, Path part) throws SQLException, IOException {
    try (SqliteJournal journal = SqliteJournal.openToRead(record)) {
      boolean ended =
          journal.batches().stream()
              .anyMatch(line -> line.batch() == batch && !line.endState().isEmpty());
      if (!ended) {
        throw new IllegalArgumentException(
            "Batch " + batch + " is not there or has not ended; a backup copies it as it is.");
      }
      try (Connection connection = JournalFile.connect(part, new SQLiteConfig())) {
        Schema.migrate(connection);
        try (PreparedStatement attach = connection.prepareStatement("ATTACH ? AS record")) {
          attach.setString(1, journal.readableFile().toAbsolutePath().toString());
          attach.execute();
        }
        Transaction.write(connection, it -> copy(it, batch));
      }
      return sumOf(journal, batch);
    }
  }

  private static Void copy(Connection connection, int batch) throws SQLException {
    run(connection, "INSERT INTO batch SELECT * FROM record.batch WHERE number = ?", batch);
    for (String table : OF_A_BATCH) {
      String rows = "INSERT INTO " + table + " SELECT * FROM record." + table + " WHERE batch = ?";
      run(connection, rows, batch);
    }
    run(
        connection,
        "INSERT INTO sample_data SELECT * FROM record.sample_data WHERE id IN"
            + " (SELECT id FROM record.sample_block WHERE batch = ?)",
        batch);
    return null;
  }

  private static void describe(Path part, int batch, boolean plain, String madeBy)
      throws SQLException {
    try (SqliteJournal journal = SqliteJournal.openToRead(part);
        Connection connection = JournalFile.connect(part, new SQLiteConfig())) {
      double[] resolutions = BatchTable.stored(connection, batch).resolutionsOrNull();
      Transaction.write(
          connection,
          it -> {
            ArchiveWords.write(it, madeBy);
            ArchiveNumbers.write(it, batch, resolutions == null ? new double[0] : resolutions);
            return null;
          });
      if (plain) {
        Transaction.write(connection, it -> ArchiveTicks.write(it, journal, batch));
      }
      try (Statement statement = connection.createStatement()) {
        statement.execute("PRAGMA journal_mode = DELETE");
      }
    }
  }

  /**
   * Takes an ended batch out of the record; the space is used again by later batches. The caller
   * has an archive of it.
   */
  public static void remove(SqliteJournal journal, int batch) {
    journal.remove(
        batch,
        connection -> {
          run(
              connection,
              "DELETE FROM sample_data WHERE id IN (SELECT id FROM sample_block WHERE batch = ?)",
              batch);
          for (String table : OF_A_BATCH) {
            run(connection, "DELETE FROM " + table + " WHERE batch = ?", batch);
          }
          run(connection, "DELETE FROM batch WHERE number = ? AND end_state IS NOT NULL", batch);
          return null;
        });
  }

  private static void run(Connection connection, String command, int batch) throws SQLException {
    try (PreparedStatement statement = connection.prepareStatement(command)) {
      statement.setInt(1, batch);
      statement.executeUpdate();
    }
  }

  /** Check sum of everything that a person can read of a batch. */
  static String sumOf(Journal journal, int batch) {
    CRC32 crc = new CRC32();
    Writer writer =
        new Writer() {
          @Override
          public void write(char[] letters, int from, int length) {
            for (int i = from; i < from + length; i++) {
              crc.update(letters[i] >>> 8);
              crc.update(letters[i]);
            }
          }

          @Override
          public void flush() {
            // Nothing is kept back.
          }

          @Override
          public void close() {
            // Nothing is held.
          }
        };
    try {
      CsvExport.samples(journal, batch, writer);
      CsvExport.events(journal, batch, writer);
      Journal.BatchHead head = journal.head(batch);
      writer.write(head.recipeText() + head.rigText() + head.seed());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Long.toHexString(crc.getValue());
  }
}
