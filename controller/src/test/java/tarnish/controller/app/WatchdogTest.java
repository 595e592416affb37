package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class WatchdogTest {
  private final AtomicLong ticks = new AtomicLong();
  private final List<String> told = new ArrayList<>();
  private final Watchdog watchdog = new Watchdog(ticks::get, told::add);

  @Test
  void readyIsToldAfterTheFirstTickAndNotBefore() {
    watchdog.look();
    assertEquals(List.of(), told);
    ticks.set(1);
    watchdog.look();
    assertEquals(List.of("READY=1"), told);
  }

  @Test
  void aLoopThatHangsIsNoLongerKeptAlive() {
    for (int i = 1; i <= 3; i++) {
      ticks.addAndGet(40);
      watchdog.look();
    }
    assertEquals(List.of("READY=1", "WATCHDOG=1", "WATCHDOG=1"), told);
    for (int i = 0; i < 10; i++) {
      watchdog.look();
    }
    assertEquals(3, told.size());
    ticks.incrementAndGet();
    watchdog.look();
    assertEquals(4, told.size());
  }
}
