package tarnish.controller.access;

import java.util.Map;
import java.util.function.LongSupplier;

/**
 * A waiting time that doubles with each failure in a row: who guesses gets slower and slower. Keys
 * (a name, an address) that are not seen for long are forgotten. Any thread may call.
 */
public final class Throttle {
  private static final int KEYS_MAX = 5000;

  private record Failures(int count, long lastMillis) {}

  private final LongSupplier clockMillis;
  private final int free;
  private final long longestMillis;
  private final Map<String, Failures> byKey = new NewestKept<>(KEYS_MAX);

  /**
   * @param free failures that cost nothing
   * @param longestMillis longest waiting time after one failure
   */
  public Throttle(LongSupplier clockMillis, int free, long longestMillis) {
    this.clockMillis = clockMillis;
    this.free = free;
    this.longestMillis = longestMillis;
  }

  /** How long the key must still wait, in ms; 0 or less: not at all. */
  public synchronized long waitMillis(String key) {
    Failures failures = byKey.get(key);
    if (failures == null || failures.count() < free) {
      return 0;
    }
    int doublings = Math.min(failures.count() - free, 30);
    long penalty = Math.min(longestMillis, 1000L << doublings);
    return failures.lastMillis() + penalty - clockMillis.getAsLong();
  }

  /** One more failure; a day without any begins the count anew. */
  public synchronized void failed(String key) {
    long now = clockMillis.getAsLong();
    Failures before = byKey.get(key);
    boolean fresh = before == null || now - before.lastMillis() > 24 * 3_600_000L;
    byKey.put(key, new Failures(fresh ? 1 : before.count() + 1, now));
  }

  public synchronized void succeeded(String key) {
    byKey.remove(key);
  }
}
