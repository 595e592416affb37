package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the package's unit has done once the service is ready. */
class LoopFirstIT {
  /** {@code rt_priority} of proc(5), counted from behind the thread's name. */
  private static final int PRIORITY_FIELD = 37;

  private static final Map<String, Integer> FIRST =
      Map.of("VM Thread", 1, "control loop", 1, "loop watchdog", 2);

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

  private static Map<String, Integer> realTimeThreads(long pid) {
    Map<String, Integer> first = threads(pid);
    first.values().removeIf(priority -> priority == 0);
    return first;
  }

  /** Real-time priorities of all threads by their names, 0 for those that have none. */
  private static Map<String, Integer> threads(long pid) {
    Map<String, Integer> priorities = new TreeMap<>();
    try (Stream<Path> tasks = Files.list(Path.of("/proc/" + pid + "/task"))) {
      for (Path task : tasks.toList()) {
        String stat = Files.readString(task.resolve("stat"));
        int nameEnd = stat.lastIndexOf(')');
        String name = stat.substring(stat.indexOf('(') + 1, nameEnd);
        priorities.put(
            name, Integer.parseInt(stat.substring(nameEnd + 2).split(" ")[PRIORITY_FIELD]));
      }
      return priorities;
    } catch (IOException threadEnded) {
      return threads(pid);
    }
  }
}
