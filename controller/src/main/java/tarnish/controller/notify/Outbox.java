package tarnish.controller.notify;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/**
 * Messages that wait for one way. Bounded: when full, the oldest goes and is counted. At most one
 * message leaves per interval; what waits by then goes with it, so a storm of alarms is one
 * message.
 */
final class Outbox {
  static final int WAITING_MAX = 50;

  /** Waits after failures in a row, in ms, the last one for good. */
  private static final long[] BACK_OFF_MILLIS = {5_000, 15_000, 60_000, 300_000, 900_000};

  private final Way way;
  private final String bench;
  private final long leastIntervalMillis;
  private final Deque<Notice> waiting = new ArrayDeque<>();
  private int lost;
  private int failures;
  private long nextMillis = Long.MIN_VALUE;

  Outbox(Way way, String bench, long leastIntervalMillis, Collection<Notice> waitingBefore) {
    this.way = way;
    this.bench = bench;
    this.leastIntervalMillis = leastIntervalMillis;
    waitingBefore.forEach(this::add);
  }

  void add(Notice notice) {
    if (waiting.size() == WAITING_MAX) {
      waiting.removeFirst();
      lost++;
    }
    waiting.addLast(notice);
  }

  List<Notice> waiting() {
    return new ArrayList<>(waiting);
  }

  String name() {
    return way.name();
  }

  /**
   * Sends what waits if it is time.
   *
   * @return empty if nothing was tried, else why it failed, or no words if it was taken
   */
  Optional<String> step(long nowMillis) {
    if (waiting.isEmpty() || nowMillis < nextMillis) {
      return Optional.empty();
    }
    try {
      way.send(bench, together(), waiting.size() - 1 + lost);
      waiting.clear();
      lost = 0;
      failures = 0;
      nextMillis = nowMillis + leastIntervalMillis;
      return Optional.of("");
    } catch (IOException | RuntimeException e) {
      int wait = StrictMath.min(failures, BACK_OFF_MILLIS.length - 1);
      nextMillis = nowMillis + StrictMath.max(leastIntervalMillis, BACK_OFF_MILLIS[wait]);
      failures++;
      return Optional.of(String.valueOf(e.getMessage()));
    }
  }

  /** The most pressing message, alarms first, with the others in its text. */
  private Notice together() {
    Notice first =
        waiting.stream()
            .filter(each -> each.kind().equals("alarm") || each.kind().equals("loop"))
            .findFirst()
            .orElse(waiting.peekFirst());
    StringBuilder text = new StringBuilder(first.text());
    for (Notice other : waiting) {
      if (other != first) {
        text.append("\n\n").append(other.at()).append(' ').append(other.subject());
        text.append('\n').append(other.text());
      }
    }
    if (lost > 0) {
      text.append("\n\n").append(lost).append(" older messages could not be kept.");
    }
    return new Notice(first.kind(), first.subject(), text.toString(), first.at());
  }
}
