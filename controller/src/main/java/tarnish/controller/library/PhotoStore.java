package tarnish.controller.library;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Photos of the ledger, each in a file named by its SHA-256. What a file is is told by its content
 * alone. Nothing is overwritten, nothing deleted. Any thread may call.
 */
public final class PhotoStore {
  public static final int BYTES_MAX = 5 * 1024 * 1024;

  /** Together, so that photos cannot fill the disk that the record needs. */
  private static final long ALL_BYTES_MAX = 2L << 30;

  private static final int SIDE_MAX = 30_000;

  private final Path folder;

  /** The two kinds that are taken. */
  public enum Kind {
    JPEG("image/jpeg", ".jpg"),
    PNG("image/png", ".png");

    private final String type;
    private final String ending;

    Kind(String type, String ending) {
      this.type = type;
      this.ending = ending;
    }

    /** As a media type. */
    public String type() {
      return type;
    }
  }

  /** A photo as kept. */
  public record Photo(String sha256, Kind kind, long bytes) {}

  public PhotoStore(Path folder) {
    this.folder = folder;
  }

  /**
   * What the bytes are, by their beginning and end; empty if neither a JPEG nor a PNG picture. Its
   * pixels are not decoded here: that is the browser's work, which is made for hostile pictures.
   */
  public static Optional<Kind> kind(byte[] bytes) {
    if (isPng(bytes)) {
      return Optional.of(Kind.PNG);
    }
    return isJpeg(bytes) ? Optional.of(Kind.JPEG) : Optional.empty();
  }

  /**
   * Signature, IHDR first with sides of a sensible length, IEND last (ISO/IEC 15948, 5.2, 11.2).
   */
  private static boolean isPng(byte[] b) {
    int[] signature = {
      0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n', 0, 0, 0, 13, 'I', 'H', 'D', 'R'
    };
    if (b.length < 45 || !startsWith(b, signature)) {
      return false;
    }
    boolean sound = isSide(number(b, 16)) && isSide(number(b, 20));
    int end = b.length - 8;
    return sound && b[end] == 'I' && b[end + 1] == 'E' && b[end + 2] == 'N' && b[end + 3] == 'D';
  }

  private static boolean isSide(long pixels) {
    return pixels > 0 && pixels <= SIDE_MAX;
  }

  private static long number(byte[] b, int at) {
    return (b[at] & 0xFFL) << 24
        | (b[at + 1] & 0xFF) << 16
        | (b[at + 2] & 0xFF) << 8
        | (b[at + 3] & 0xFF);
  }

  /** SOI and a marker first, EOI last (ITU-T T.81, B.1). */
  private static boolean isJpeg(byte[] b) {
    return b.length > 100
        && startsWith(b, new int[] {0xFF, 0xD8, 0xFF})
        && (b[3] & 0xFF) >= 0xC0
        && (b[b.length - 2] & 0xFF) == 0xFF
        && (b[b.length - 1] & 0xFF) == 0xD9;
  }

  private static boolean startsWith(byte[] b, int[] beginning) {
    for (int i = 0; i < beginning.length; i++) {
      if ((b[i] & 0xFF) != beginning[i]) {
        return false;
      }
    }
    return true;
  }

  /**
   * Keeps a photo, durable when the call returns.
   *
   * @return empty if the photos together would be too many bytes
   */
  public synchronized Optional<Photo> keep(byte[] bytes, Kind kind) throws IOException {
    Files.createDirectories(folder);
    String sha256 = Checksum.of(bytes);
    if (find(sha256).isEmpty() && allBytes() + bytes.length > ALL_BYTES_MAX) {
      return Optional.empty();
    }
    DurableFile.write(folder.resolve(sha256 + kind.ending), bytes);
    return Optional.of(new Photo(sha256, kind, bytes.length));
  }

  private long allBytes() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.mapToLong(file -> file.toFile().length()).sum();
    }
  }

  public Optional<Photo> find(String sha256) {
    if (!Checksum.isOne(sha256)) {
      return Optional.empty();
    }
    for (Kind kind : Kind.values()) {
      Path file = folder.resolve(sha256 + kind.ending);
      if (Files.isRegularFile(file)) {
        return Optional.of(new Photo(sha256, kind, file.toFile().length()));
      }
    }
    return Optional.empty();
  }

  public byte[] bytes(Photo photo) throws IOException {
    return Files.readAllBytes(folder.resolve(photo.sha256() + photo.kind().ending));
  }
}
