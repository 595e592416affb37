package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** How the Debian package starts the service: its options, and a class archive made as it does. */
final class Packaged {
  /** As in the unit file of the package. */
  static final List<String> OPTIONS =
      List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx64m");

  private static final List<String> REAL_TIME = List.of("chrt", "--fifo", "1");

  private Packaged() {}

  /**
   * Java behind what the property {@code before} says, e.g. {@code chrt -f 1} on a machine with
   * other work; by default the priority of the unit file, where that may be had (root).
   */
  static List<String> javaFirst() throws IOException {
    String before = System.getProperty("before", isRoot() ? "nice -n -10" : "");
    List<String> command = new ArrayList<>();
    if (!before.isEmpty()) {
      command.addAll(List.of(before.split(" ")));
    }
    command.add(ServedProcess.JAVA);
    return command;
  }

  /** What stands before a command that gets the priority of the loop's thread. */
  static List<String> realTime() throws IOException, InterruptedException {
    return mayGiveRealTime() ? REAL_TIME : List.of();
  }

  /** What the unit file has done once the service is ready; it says so where it may not. */
  static void afterReady(long pid) throws IOException, InterruptedException {
    new ProcessBuilder("src/deb/loop-first", Long.toString(pid)).inheritIO().start().waitFor();
  }

  /** Root may, but not in every container. */
  static boolean mayGiveRealTime() throws IOException, InterruptedException {
    List<String> trial = new ArrayList<>(REAL_TIME);
    trial.add("true");
    return new ProcessBuilder(trial).start().waitFor() == 0;
  }

  private static boolean isRoot() throws IOException {
    return Files.readString(Path.of("/proc/self/status")).contains("\nUid:\t0\t");
  }

  static List<String> options(Path folder) throws IOException, InterruptedException {
    return archive(folder.resolve("service.jsa"), List.of("-jar", "target/tarnish.jar"), "warm-up");
  }

  /** Makes a class archive as the package does, and gives the options that use it. */
  static List<String> archive(Path file, List<String> program, String argument)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of(ServedProcess.JAVA));
    command.add("-XX:ArchiveClassesAtExit=" + file);
    command.addAll(OPTIONS);
    command.addAll(program);
    command.add(argument);
    new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start()
        .waitFor();
    List<String> options = new ArrayList<>(OPTIONS);
    options.add("-XX:SharedArchiveFile=" + file);
    return options;
  }
}
