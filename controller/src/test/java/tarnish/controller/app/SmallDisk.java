package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * A file system made for a trial: ext4 on a loop device whose medium is a file on a small tmpfs.
 * When the tmpfs is full, what ext4 wants to write to a place not written before is an I/O error,
 * as on a worn card. Needs root; {@link #whyNot} says in a sentence where it cannot be made.
 */
final class SmallDisk implements AutoCloseable {
  private static final int SIZE_MB = 16;

  private final Path folder;
  private final Path medium;
  private final Path disk;
  private final String device;

  private SmallDisk(Path folder, String device) {
    this.folder = folder;
    this.medium = folder.resolve("medium");
    this.disk = folder.resolve("disk");
    this.device = device;
  }

  /** Empty if disks can be made here, else why not. */
  static String whyNot() throws IOException, InterruptedException {
    if (!said("id", "-u").equals("0")) {
      return "A disk for a trial needs root to be mounted; the user is not root.";
    }
    Path folder = Files.createTempDirectory("tarnish-disk");
    try {
      make(folder).close();
      return "";
    } catch (IOException e) {
      return "A disk for a trial cannot be mounted here: " + e.getMessage().strip();
    }
  }

  static SmallDisk make(Path folder) throws IOException, InterruptedException {
    Path medium = Files.createDirectories(folder.resolve("medium"));
    Path disk = Files.createDirectories(folder.resolve("disk"));
    run("mount", "-t", "tmpfs", "-o", "size=" + (SIZE_MB + 8) + "m", "none", medium.toString());
    Path image = medium.resolve("image");
    try {
      run("truncate", "-s", SIZE_MB + "M", image.toString());
      run("mkfs.ext4", "-q", "-E", "nodiscard", "-e", "remount-ro", image.toString());
      String device = said("losetup", "--find", "--show", image.toString());
      try {
        run("mount", device, disk.toString());
      } catch (IOException e) {
        run("losetup", "-d", device);
        throw e;
      }
      return new SmallDisk(folder, device);
    } catch (IOException e) {
      run("umount", medium.toString());
      throw e;
    }
  }

  Path data() {
    return disk.resolve("record");
  }

  /** Leaves no room for another page, for a while. */
  void fill() throws IOException, InterruptedException {
    Path ballast = disk.resolve("ballast");
    new ProcessBuilder("dd", "if=/dev/zero", "of=" + ballast, "bs=4k")
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start()
        .waitFor();
    run("sync", "-f", disk.toString());
  }

  void makeRoom() throws IOException {
    Files.delete(disk.resolve("ballast"));
  }

  /** The medium takes no more: as for a card whose spare blocks are used up. */
  void failWrites() throws IOException, InterruptedException {
    new ProcessBuilder("dd", "if=/dev/zero", "of=" + medium.resolve("ballast"), "bs=4k")
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start()
        .waitFor();
  }

  /** As a kernel does that has found a fault: read-only from now on, under open files. */
  void turnReadOnly() throws IOException {
    Path trigger = Path.of("/sys/fs/ext4", Path.of(device).getFileName().toString());
    Files.writeString(trigger.resolve("trigger_fs_error"), "tried on purpose");
  }

  /** Bytes that reached the device since it was mounted. */
  long writtenBytes() throws IOException, InterruptedException {
    run("sync", "-f", disk.toString());
    Path statistics = Path.of("/sys/block", Path.of(device).getFileName().toString(), "stat");
    // Field 7: sectors of 512 bytes written (Documentation/block/stat.rst of the kernel).
    return Long.parseLong(Files.readString(statistics).strip().split("\\s+")[6]) * 512;
  }

  /** What a power cut would leave: the medium as it is, without what only waits in memory. */
  SmallDisk copyOfMedium(Path to) throws IOException, InterruptedException {
    Path image = Files.createDirectories(to.resolve("medium")).resolve("image");
    Files.copy(medium.resolve("image"), image);
    Path mounted = Files.createDirectories(to.resolve("disk"));
    String loop = said("losetup", "--find", "--show", image.toString());
    run("mount", loop, mounted.toString());
    return new SmallDisk(to, loop);
  }

  /** Mounts again after the kernel had made it read-only, with its own repair. */
  void repair() throws IOException, InterruptedException {
    unmount(disk);
    new ProcessBuilder("e2fsck", "-fy", device)
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start()
        .waitFor();
    run("mount", device, disk.toString());
  }

  private static void unmount(Path where) throws IOException, InterruptedException {
    for (int i = 0; i < 50; i++) {
      try {
        run("umount", where.toString());
        return;
      } catch (IOException busy) {
        TimeUnit.MILLISECONDS.sleep(100);
      }
    }
    run("umount", "-l", where.toString());
  }

  @Override
  public void close() {
    try {
      unmount(disk);
      run("losetup", "-d", device);
      try (Stream<String> mounts = Files.lines(Path.of("/proc/mounts"))) {
        if (mounts.anyMatch(line -> line.contains(" " + medium + " "))) {
          unmount(medium);
        }
      }
      Files.deleteIfExists(medium.resolve("image"));
      Files.delete(medium);
      Files.delete(disk);
      Files.delete(folder);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void run(String... command) throws IOException, InterruptedException {
    said(command);
  }

  private static String said(String... command) throws IOException, InterruptedException {
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String words = new String(process.getInputStream().readAllBytes());
    if (process.waitFor() != 0) {
      throw new IOException(String.join(" ", command) + ": " + words);
    }
    return words.strip();
  }
}
