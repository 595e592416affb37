package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalLong;

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

  private static final int STARTTIME_FIELD = 22;

  private ProcessAge() {}

  /** In ms, to about 20 ms; empty where there is no such clock. */
  static OptionalLong millis() {
    try {
      return OptionalLong.of(millis(ProcStat.read(STAT), Files.readString(UPTIME)));
    } catch (IOException | IllegalArgumentException | IndexOutOfBoundsException noSuchClock) {
      return OptionalLong.empty();
    }
  }

  static long millis(ProcStat stat, String uptime) {
    double sinceBootS = Double.parseDouble(uptime.substring(0, uptime.indexOf(' ')));
    return StrictMath.round(sinceBootS * 1e3) - stat.number(STARTTIME_FIELD) * TICK_MILLIS;
  }
}
