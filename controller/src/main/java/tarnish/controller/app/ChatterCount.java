package tarnish.controller.app;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import tarnish.controller.control.Audit;

/** Counts how often one row of the table comes within a minute. */
final class ChatterCount {
  private static final long MINUTE_MILLIS = 60_000;

  private final Map<String, Deque<Long>> times = new HashMap<>();
  private int most;
  private String worst = "";

  void raised(String row, long nowMillis) {
    Deque<Long> recent = times.computeIfAbsent(row, each -> new ArrayDeque<>());
    while (!recent.isEmpty() && nowMillis - recent.peekFirst() >= MINUTE_MILLIS) {
      recent.removeFirst();
    }
    recent.addLast(nowMillis);
    if (recent.size() > most) {
      most = recent.size();
      worst = row;
    }
  }

  int most() {
    return most;
  }

  /** What is violated, or empty. */
  String found() {
    return most <= Audit.ALARMS_IN_A_MINUTE_MAX
        ? ""
        : "'" + worst + "' chatters: it came " + most + " times within a minute";
  }
}
