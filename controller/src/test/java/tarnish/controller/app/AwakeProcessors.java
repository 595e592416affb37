package tarnish.controller.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * Keeps every processor from resting, at a priority that yields to everything at once. A virtual
 * machine's processor that rests is given away by its host and comes back when the host likes; on a
 * board of one's own it does not, so this takes the host out of the figures ({@code idle=poll} is
 * the kernel's own way, common practice where latencies are measured).
 */
final class AwakeProcessors implements AutoCloseable {
  private final List<Process> spinning = new ArrayList<>();

  private AwakeProcessors() {}

  /** They end by themselves after so many seconds. */
  static AwakeProcessors forSeconds(int seconds) throws IOException {
    AwakeProcessors awake = new AwakeProcessors();
    for (int i = 0; i < Runtime.getRuntime().availableProcessors(); i++) {
      awake.spinning.add(
          new ProcessBuilder(
                  "timeout",
                  Integer.toString(seconds),
                  "taskset",
                  "-c",
                  Integer.toString(i),
                  "chrt",
                  "--idle",
                  "0",
                  "sh",
                  "-c",
                  "while :; do :; done")
              .start());
    }
    return awake;
  }

  @Override
  public String toString() {
    return spinning.size() + " processors";
  }

  @Override
  public void close() {
    spinning.forEach(Process::destroy);
  }
}
