package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class ProcessAgeTest {
  @Test
  void theAgeIsTheTimeSinceTheBootLessTheTimeAtWhichTheProcessBegan() {
    String stat =
        "4711 (a (name) of) its own) S 1 4711 4711 0 -1 4194560 1 0 0 0 5 6 0 0 20 0 9 0 "
            + "123456 1000 50";
    assertEquals(1_550, ProcessAge.millis(stat, "1236.11 2400.00\n"));
  }

  @Test
  void itAgreesWithWhatTheVirtualMachineSaysOfItself() {
    assumeTrue(Files.exists(Path.of("/proc/uptime")), "no /proc");
    long before = ManagementFactory.getRuntimeMXBean().getUptime();
    long age = ProcessAge.millis();
    long after = ManagementFactory.getRuntimeMXBean().getUptime();
    // The machine begins after the process, and the ticks of proc(5) are 10 ms.
    assertTrue(age >= before - 20, age + " ms against " + before);
    assertTrue(age <= after + 60_000, age + " ms against " + after);
  }
}
