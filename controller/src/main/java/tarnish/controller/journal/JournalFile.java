package tarnish.controller.journal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import org.sqlite.SQLiteConfig;
import tarnish.controller.journal.Journal.NoteLine;
import tarnish.controller.journal.JournalException.Trouble;

/**
 * The file of the record with its two connections, one that writes and one that reads. A file that
 * is not a sound record is renamed, never overwritten.
 */
final class JournalFile implements AutoCloseable {
  static final String NAME = "tarnish.db";

  /** The loop must not wait long for another program; what waits is written a tick later. */
  private static final int WRITE_WAIT_MILLIS = 100;

  private static final int READ_WAIT_MILLIS = 2000;

  /** A larger file is not checked as a whole at the start, because that would take minutes. */
  static final long CHECKED_UP_TO_BYTES = 256L << 20;

  private final FileChannel lockChannel;
  final Path path;

  /** Where the content can be read: {@link #path}, or a copy of an older file. */
  final Path readable;

  final Connection write;
  final Connection read;
  final String openingRemark;

  private JournalFile(
      FileChannel lockChannel,
      Path path,
      Path readable,
      Connection write,
      Connection read,
      String remark) {
    this.readable = readable;
    this.lockChannel = lockChannel;
    this.path = path;
    this.write = write;
    this.read = read;
    this.openingRemark = remark;
  }

  /**
   * @param knownFault what is wrong with the file, where its content was found to be damaged only
   *     after it had been opened; empty to find out
   */
  static JournalFile open(Path dataFolder, Pace pace, String knownFault) {
    Path path = dataFolder.resolve(NAME);
    FileChannel lock = lock(dataFolder);
    Connection write = null;
    try {
      String remark = LogAside.keep(path);
      String kind = Journal.LOG_DAMAGED;
      String fault = knownFault.isEmpty() ? faultOf(path) : knownFault;
      if (!fault.isEmpty()) {
        remark = (remark + " " + setAside(path, fault)).strip();
        kind = Journal.SET_ASIDE;
      }
      write = connect(path, writing(pace));
      int before = Schema.version(write);
      Schema.migrate(write);
      if (before > 0 && before < Schema.NEWEST) {
        note(write, "brought up to date", "From version " + before + " to " + Schema.NEWEST + ".");
      }
      if (!remark.isEmpty()) {
        note(write, kind, remark);
      }
      Connection read = connect(path, looking());
      try (Statement statement = read.createStatement()) {
        statement.execute("PRAGMA query_only = 1");
      }
      return new JournalFile(lock, path, path, write, read, remark);
    } catch (SQLException e) {
      closeQuietly(write);
      closeQuietly(lock);
      throw JournalException.of("The record cannot be opened", path, e);
    } catch (JournalException e) {
      closeQuietly(lock);
      throw e;
    }
  }

  /**
   * Opens a file only to read it: an archive, a backup, or the record of a service that runs. A
   * file of an older version is read from a copy that is brought up to date.
   */
  static JournalFile openToRead(Path path) {
    Connection read = null;
    try {
      String fault = Files.isRegularFile(path) ? faultOf(path) : "is missing";
      if (!fault.isEmpty()) {
        boolean damaged = fault.contains("damaged");
        throw new JournalException(
            damaged ? Trouble.DAMAGED_COPY : Trouble.NOT_A_RECORD, path + " cannot be read");
      }
      Path readable = OlderCopy.of(path);
      SQLiteConfig config = looking();
      config.setReadOnly(true);
      read = connect(readable, config);
      return new JournalFile(null, path, readable, read, read, "");
    } catch (SQLException e) {
      closeQuietly(read);
      throw JournalException.of("The file cannot be read", path, e);
    }
  }

  static void note(Connection write, String kind, String sentence) throws SQLException {
    String now = OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS).toString();
    NoteTable.insert(write, new NoteLine(now, kind, sentence));
  }

  /** One Tarnish to a folder: two would write two benches into one record. */
  private static FileChannel lock(Path dataFolder) {
    Path path = dataFolder.resolve("tarnish.lock");
    FileChannel channel = null;
    try {
      Files.createDirectories(dataFolder);
      channel = FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      FileLock lock = channel.tryLock();
      if (lock != null) {
        return channel;
      }
    } catch (OverlappingFileLockException e) {
      // Held within this very process: the same answer as for another one.
    } catch (FileSystemException e) {
      throw new JournalException(
          Trouble.READ_ONLY, "The folder of the record cannot be used (" + dataFolder + ")", e);
    } catch (IOException e) {
      throw new JournalException(
          Trouble.DEVICE, "The folder of the record cannot be used (" + dataFolder + ")", e);
    }
    closeQuietly(channel);
    throw new JournalException(
        Trouble.LOCKED, "Another Tarnish already keeps its record in " + dataFolder);
  }

  /** What is wrong with the file, in words, or empty if it is sound or not there yet. */
  private static String faultOf(Path path) throws SQLException {
    try {
      if (!Files.exists(path)) {
        return "";
      }
      if (Files.size(path) == 0) {
        return "was empty";
      }
      boolean small = Files.size(path) <= CHECKED_UP_TO_BYTES;
      return faultInside(path, small);
    } catch (IOException e) {
      throw new JournalException(
          Trouble.READ_ONLY, "The record cannot be opened (" + path + ")", e);
    }
  }

  private static String faultInside(Path path, boolean whole) throws SQLException {
    try (Connection connection = connect(path, looking())) {
      if (Schema.version(connection) > Schema.NEWEST) {
        throw new JournalException(Trouble.TOO_NEW, "The record cannot be opened (" + path + ")");
      }
      if (Schema.isForeign(connection)) {
        return "is a database of another program";
      }
      return whole ? check(connection) : "";
    } catch (SQLException e) {
      if (JournalException.troubleOf(e) == Trouble.DAMAGED) {
        return "is damaged or not a record";
      }
      throw e;
    }
  }

  static String check(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("PRAGMA quick_check(1)")) {
      String answer = rows.next() ? rows.getString(1) : "no answer";
      return "ok".equals(answer) ? "" : "is damaged (" + answer.replace('\n', ' ') + ")";
    }
  }

  private static String setAside(Path path, String fault) {
    String stamp = DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss").format(LocalDateTime.now());
    Path aside = path.resolveSibling("tarnish-set-aside-" + stamp + ".db");
    for (int i = 2; Files.exists(aside); i++) {
      aside = path.resolveSibling("tarnish-set-aside-" + stamp + "-" + i + ".db");
    }
    try {
      for (String part : new String[] {"-wal", "-shm", ""}) {
        Path from = path.resolveSibling(path.getFileName() + part);
        if (Files.exists(from)) {
          Files.move(from, aside.resolveSibling(aside.getFileName() + part));
        }
      }
    } catch (IOException e) {
      throw new JournalException(
          Trouble.READ_ONLY, "The file " + path + " " + fault + " and cannot be renamed", e);
    }
    return "The record file "
        + path
        + " "
        + fault
        + ". It was kept as "
        + aside.getFileName()
        + " and a new, empty record was begun. A batch that was running is not known any more:"
        + " look at the bench before you start one.";
  }

  private static SQLiteConfig writing(Pace pace) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(
        pace == Pace.DURABLE
            ? SQLiteConfig.SynchronousMode.FULL
            : SQLiteConfig.SynchronousMode.OFF);
    config.setBusyTimeout(WRITE_WAIT_MILLIS);
    return config;
  }

  /** Leaves the journal mode as it is: a file that is looked at may not be ours. */
  static SQLiteConfig looking() {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(READ_WAIT_MILLIS);
    return config;
  }

  static Connection connect(Path path, SQLiteConfig config) throws SQLException {
    return config.createConnection("jdbc:sqlite:" + path.toAbsolutePath());
  }

  private static void closeQuietly(AutoCloseable what) {
    try {
      if (what != null) {
        what.close();
      }
    } catch (Exception e) {
      // The trouble that led here is reported; this one adds nothing to it.
    }
  }

  @Override
  public void close() {
    closeQuietly(read);
    closeQuietly(write);
    closeQuietly(lockChannel);
  }
}
