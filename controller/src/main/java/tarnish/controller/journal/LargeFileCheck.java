package tarnish.controller.journal;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.function.Consumer;

/** Reads a whole file through, slowly and beside everything else, and tells only of damage. */
final class LargeFileCheck {
  private LargeFileCheck() {}

  static void start(Path file, Consumer<String> whenDamaged) {
    Thread thread = new Thread(() -> run(file, whenDamaged), "record check");
    thread.setDaemon(true);
    thread.setPriority(Thread.MIN_PRIORITY);
    thread.start();
  }

  static void run(Path file, Consumer<String> whenDamaged) {
    try (Connection connection = JournalFile.connect(file, JournalFile.looking())) {
      String fault = JournalFile.check(connection);
      if (!fault.isEmpty()) {
        whenDamaged.accept(fault);
      }
    } catch (SQLException e) {
      if (JournalException.troubleOf(e) == JournalException.Trouble.DAMAGED) {
        whenDamaged.accept("is damaged");
      }
    }
  }
}
