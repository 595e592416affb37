package tarnish.controller.library;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Writes a whole file or none of it, even through a power cut. */
final class DurableFile {
  private DurableFile() {}

  static void write(Path path, byte[] bytes) throws IOException {
    if (Files.exists(path) && Files.size(path) == bytes.length) {
      // Named by its content: it is there already.
      return;
    }
    Path fresh = Files.createTempFile(path.toAbsolutePath().getParent(), "fresh", ".part");
    try {
      try (FileChannel channel = FileChannel.open(fresh, StandardOpenOption.WRITE)) {
        ByteBuffer buffer = ByteBuffer.wrap(bytes);
        while (buffer.hasRemaining()) {
          channel.write(buffer);
        }
        channel.force(true);
      }
      Files.move(fresh, path, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(fresh);
    }
  }
}
