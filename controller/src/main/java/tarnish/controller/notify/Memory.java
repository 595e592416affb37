package tarnish.controller.notify;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What was told and what waits, in a small file, so that a restart neither loses nor repeats.
 *
 * @param told keys of what stands and was told
 * @param waiting messages by way
 */
record Memory(Set<String> told, Map<String, List<Notice>> waiting) {
  private static final ObjectMapper JSON = new ObjectMapper();
  static final Memory NONE = new Memory(Set.of(), Map.of());

  /** What the file says; nothing if there is none or it cannot be read. */
  static Memory read(Path file) {
    try {
      return Files.exists(file) ? JSON.readValue(file.toFile(), Memory.class) : NONE;
    } catch (IOException unreadable) {
      return NONE;
    }
  }

  /** Replaces the file as a whole. */
  void write(Path file) throws IOException {
    Path next = file.resolveSibling(file.getFileName() + ".new");
    Files.write(next, JSON.writeValueAsBytes(this));
    Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }
}
