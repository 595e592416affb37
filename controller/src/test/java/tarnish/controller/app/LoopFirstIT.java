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
  /** {@code rt_priority} and {@code policy} of proc(5), counted from behind the thread's name. */
  private static final int PRIORITY_FIELD = 37;

  private static final int POLICY_FIELD = 38;
  private static final String FIFO = "1";

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
      assertEquals(
          Map.of("VM Thread", 1, "control loop", 1, "loop watchdog", 2),
          realTimeThreads(service.pid()));
      long ticks = service.status().get("loop").get("ticks").asLong();
      service.waitFor("further ticks", s -> s.get("loop").get("ticks").asLong() > ticks + 2);
    }
  }

  private static Map<String, Integer> realTimeThreads(long pid) throws IOException {
    Map<String, Integer> priorities = new TreeMap<>();
    try (Stream<Path> threads = Files.list(Path.of("/proc/" + pid + "/task"))) {
      for (Path thread : threads.toList()) {
        Path file = thread.resolve("stat");
        String stat = Files.exists(file) ? Files.readString(file) : ") ";
        int nameEnd = stat.lastIndexOf(')');
        String[] fields = stat.substring(nameEnd + 2).split(" ");
        if (fields.length > POLICY_FIELD && fields[POLICY_FIELD].equals(FIFO)) {
          String name = stat.substring(stat.indexOf('(') + 1, nameEnd);
          priorities.put(name, Integer.parseInt(fields[PRIORITY_FIELD]));
        }
      }
    }
    return priorities;
  }
}
