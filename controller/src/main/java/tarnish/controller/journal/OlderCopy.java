package tarnish.controller.journal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import org.sqlite.SQLiteConfig;

/** A file of an older version is never changed to be read: a copy of it is. */
final class OlderCopy {
  private OlderCopy() {}

  /** The file itself if it is of the newest version, else a copy brought up to date. */
  static Path of(Path file) throws SQLException {
    try (Connection connection = JournalFile.connect(file, JournalFile.looking())) {
      if (Schema.version(connection) == Schema.NEWEST) {
        return file;
      }
    }
    try {
      Path copy = Files.createTempFile("tarnish-older-", ".db");
      copy.toFile().deleteOnExit();
      Backup.copy(file, copy);
      try (Connection connection = JournalFile.connect(copy, new SQLiteConfig())) {
        Schema.migrate(connection);
      }
      return copy;
    } catch (IOException e) {
      throw new JournalException(
          JournalException.Trouble.DEVICE, "A copy of " + file + " cannot be made", e);
    }
  }
}
