package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class LatenessTest {
  @Test
  void aLateTickCountsOnceAlthoughTheNextOneFollowsItClosely() {
    List<Long> times = new ArrayList<>();
    for (long i = 0; i < 1000; i++) {
      times.add(250 * i + (i == 500 ? 40 : 0));
    }
    assertEquals(
        "1000, late by: median 0 ms, 99 % 0 ms, 99.9 % 40 ms, worst 40 ms",
        Lateness.of(times, 0, 250).toString());
    times.add(250_000L);
    times.add(250_250L);
    assertEquals(
        "1002, late by: median 0 ms, 99 % 0 ms, 99.9 % 0 ms, worst 40 ms",
        Lateness.of(times, 0, 250).toString());
  }

  @Test
  void ticksThatStayBehindTheGridAreLateUntilTheyCatchUp() {
    List<Long> times = List.of(0L, 250L, 507L, 757L, 1000L, 1250L);
    assertEquals(
        "5, late by: median 0 ms, 99 % 7 ms, 99.9 % 7 ms, worst 7 ms",
        Lateness.of(times, 1, 250).toString());
    assertEquals("no ticks", Lateness.of(times, 6, 250).toString());
  }
}
