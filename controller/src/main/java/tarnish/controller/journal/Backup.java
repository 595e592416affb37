package tarnish.controller.journal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import tarnish.controller.journal.JournalException.Trouble;

/**
 * A copy of the whole record as it is at one moment, while a service goes on writing: one read
 * transaction ({@code VACUUM INTO} of SQLite), which in write-ahead mode holds up nobody.
 */
public final class Backup {
  private Backup() {}

  /**
   * Copies the record of {@code dataFolder} to {@code to}, checks the copy, and only then gives it
   * its name.
   *
   * @return its size in bytes
   * @throws JournalException if there is no record, {@code to} is there already, or the disk
   *     refuses
   */
  public static long of(Path dataFolder, Path to) {
    Path from = dataFolder.resolve(JournalFile.NAME);
    if (!Files.isRegularFile(from)) {
      throw new JournalException(Trouble.NOT_A_RECORD, "Nothing to copy in " + dataFolder);
    }
    if (Files.exists(to)) {
      throw new JournalException(Trouble.EXISTS, "The copy cannot be made (" + to + ")");
    }
    Path part = to.resolveSibling(to.getFileName() + ".part");
    try {
      Files.createDirectories(to.toAbsolutePath().getParent());
      Files.deleteIfExists(part);
      copy(from, part);
      try (Connection connection = JournalFile.connect(part, JournalFile.looking())) {
        String fault = JournalFile.check(connection);
        if (!fault.isEmpty()) {
          throw new JournalException(Trouble.DAMAGED, "The copy " + part + " " + fault);
        }
      }
      finish(part, to);
      return Files.size(to);
    } catch (SQLException e) {
      throw JournalException.of("The copy cannot be made", to, e);
    } catch (IOException e) {
      throw new JournalException(Trouble.DEVICE, "The copy cannot be made (" + to + ")", e);
    }
  }

  /** Copies one file with what still waits in its log. {@code to} may be there, but empty. */
  static void copy(Path from, Path to) throws SQLException {
    try (Connection connection = JournalFile.connect(from, JournalFile.looking());
        PreparedStatement copy = connection.prepareStatement("VACUUM INTO ?")) {
      copy.setString(1, to.toAbsolutePath().toString());
      copy.execute();
    }
  }

  /** On the medium first, then under its name: who finds the name finds a whole file. */
  static void finish(Path part, Path to) throws IOException {
    try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
    Files.move(part, to, StandardCopyOption.ATOMIC_MOVE);
  }
}
