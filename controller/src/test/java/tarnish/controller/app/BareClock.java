package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.locks.LockSupport;

/**
 * A thread that only wakes, as often as the loop ticks and as much before everything else: how
 * evenly the machine itself lets anything run. No program on it can be expected to do better.
 */
final class BareClock implements AutoCloseable {
  private static final long NANOS_PER_MILLI = 1_000_000;

  private final Process process;
  private final Path said;
  private final long periodMillis;

  private BareClock(Process process, Path said, long periodMillis) {
    this.process = process;
    this.said = said;
    this.periodMillis = periodMillis;
  }

  /** The argument: the period in ms. Prints the time of each waking in ms until it is ended. */
  public static void main(String[] arguments) {
    long periodNanos = Long.parseLong(arguments[0]) * NANOS_PER_MILLI;
    long beganNanos = System.nanoTime();
    long dueNanos = beganNanos;
    while (!Thread.interrupted()) {
      System.out.println((System.nanoTime() - beganNanos) / NANOS_PER_MILLI);
      dueNanos = StrictMath.max(dueNanos + periodNanos, System.nanoTime());
      while (System.nanoTime() < dueNanos) {
        LockSupport.parkNanos(dueNanos - System.nanoTime());
      }
    }
  }

  /**
   * A process of its own.
   *
   * @param before what stands before its command and gives it its priority
   */
  static BareClock start(Path folder, List<String> before, long periodMillis) throws IOException {
    Path said = folder.resolve("bare-clock.txt");
    List<String> command = new ArrayList<>(before);
    command.addAll(List.of(ServedProcess.JAVA, "-Xmx16m", "-XX:+UseSerialGC"));
    command.addAll(List.of("-cp", "target/test-classes", BareClock.class.getName()));
    command.add(Long.toString(periodMillis));
    Process process = new ProcessBuilder(command).redirectOutput(said.toFile()).start();
    return new BareClock(process, said, periodMillis);
  }

  /** Its lateness so far; the first second, in which Java is still beginning, is left out. */
  Lateness lateness() throws IOException {
    List<Long> times = new ArrayList<>();
    for (String line : Files.readAllLines(said)) {
      times.add(Long.parseLong(line));
    }
    return Lateness.of(times, (int) (1000 / periodMillis), periodMillis);
  }

  @Override
  public void close() {
    process.destroy();
  }
}
