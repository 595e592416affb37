package tarnish.controller.access;

import java.util.Map;
import java.util.function.LongSupplier;

/**
 * So many calls per second and key, and a stock for bursts; what is beyond is refused. Any thread
 * may call.
 */
public final class RateLimit {
  private static final int KEYS_MAX = 5000;

  private record Stock(double calls, long atMillis) {}

  private final LongSupplier clockMillis;
  private final double perSecond;
  private final double burst;
  private final Map<String, Stock> byKey = new NewestKept<>(KEYS_MAX);

  public RateLimit(LongSupplier clockMillis, double perSecond, double burst) {
    this.clockMillis = clockMillis;
    this.perSecond = perSecond;
    this.burst = burst;
  }

  /** Takes one call from the key's stock; false if there is none. */
  public synchronized boolean take(String key) {
    long now = clockMillis.getAsLong();
    Stock stock = byKey.getOrDefault(key, new Stock(burst, now));
    double calls = Math.min(burst, stock.calls() + (now - stock.atMillis()) / 1000.0 * perSecond);
    boolean granted = calls >= 1;
    byKey.put(key, new Stock(granted ? calls - 1 : calls, now));
    return granted;
  }
}
