package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * How long ago this process began, by the clock that counts since the machine's boot. The wall
 * clock will not do: {@link ProcessHandle.Info#startInstant()} reckons from the boot's date, which
 * the kernel gives in whole seconds, and jumps when the clock is set.
 */
final class ProcessAge {
  private static final Path STAT = Path.of("/proc/self/stat");
  private static final Path UPTIME = Path.of("/proc/uptime");

  /** A tick of proc(5)'s times, 1/100 s on every Linux that Java runs on. */
  private static final int TICK_MILLIS = 10;

  /** {@code starttime} of proc(5), counted from the field behind the command's name. */
  private static final int BEGAN_FIELD = 19;

  private ProcessAge() {}

  /** In ms, to about 20 ms; -1 where there is no such clock. */
  static long millis() {
    try {
      return millis(Files.readString(STAT), Files.readString(UPTIME));
    } catch (IOException noSuchClock) {
      return -1;
    }
  }

  static long millis(String stat, String uptime) {
    // The command's name may hold blanks and parentheses.
    String[] fields = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
    long beganMillis = Long.parseLong(fields[BEGAN_FIELD]) * TICK_MILLIS;
    double sinceBootS = Double.parseDouble(uptime.substring(0, uptime.indexOf(' ')));
    return StrictMath.round(sinceBootS * 1e3) - beganMillis;
  }
}
