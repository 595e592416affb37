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
    assertEquals(1_550, ProcessAge.millis(new ProcStat(stat), "1236.11 2400.00\n"));
  }

  @Test
  void aNameWithBlanksAndParenthesesIsReadWhole() {
    ProcStat stat = new ProcStat("4711 (a (name) of) its own) S 1 4712 4713 0 -1");
    assertEquals("a (name) of) its own", stat.name());
    assertEquals(1, stat.number(4));
    assertEquals(4712, stat.number(5));
  }

  @Test
  void itAgreesWithWhatTheVirtualMachineSaysOfItself() {
    assumeTrue(Files.exists(Path.of("/proc/uptime")), "no /proc");
    long before = ManagementFactory.getRuntimeMXBean().getUptime();
    long age = ProcessAge.millis().orElseThrow();
    long after = ManagementFactory.getRuntimeMXBean().getUptime();
    // The machine begins after the process, and the ticks of proc(5) are 10 ms.
    assertTrue(age >= before - 20, age + " ms against " + before);
    assertTrue(age <= after + 60_000, age + " ms against " + after);
  }
}
