package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the package's unit has done once the service is ready. */
class LoopFirstIT {
  /** {@code rt_priority} of proc(5). */
  private static final int PRIORITY_FIELD = 40;

  private static final Map<String, Long> FIRST =
      Map.of("VM Thread", 1L, "control loop", 1L, "loop watchdog", 2L);

  @TempDir private Path data;

  @Test
  void theLoopAndWhatItWaitsForComeBeforeThePagesAndItsWatchdogBeforeIt() throws Exception {
    assumeTrue(Packaged.mayGiveRealTime(), "no real-time priority to be had");
    try (ServedProcess service =
        ServedProcess.start(
            "serve", "--rig", Demo.RIG.toString(), "--data", data.toString(), "--port", "0")) {
      service.waitFor("the first tick", s -> s.get("loop").get("ticks").asLong() >= 1);
      assertEquals(Map.of(), realTimeThreads(service.pid()));
      Packaged.afterReady(service.pid());
      assertEquals(FIRST, realTimeThreads(service.pid()));
      // The loop has the batch rehearsed; the thread begun for that must not take after it.
      service.begin(Files.readString(Demo.COPPER));
      service.waitFor("a rehearsal", s -> threads(service.pid()).containsKey("rehearsal"));
      assertEquals(FIRST, realTimeThreads(service.pid()));
    }
  }

  private static Map<String, Long> realTimeThreads(long pid) {
    Map<String, Long> first = threads(pid);
    first.values().removeIf(priority -> priority == 0);
    return first;
  }

  /** The highest real-time priority of all threads by their names, 0 for those that have none. */
  private static Map<String, Long> threads(long pid) {
    Map<String, Long> priorities = new TreeMap<>();
    for (File task : new File("/proc/" + pid + "/task").listFiles()) {
      try {
        ProcStat stat = ProcStat.read(task.toPath().resolve("stat"));
        priorities.merge(stat.name(), stat.number(PRIORITY_FIELD), Math::max);
      } catch (IOException ended) {
        // A thread that was there a moment ago.
      }
    }
    return priorities;
  }
}
