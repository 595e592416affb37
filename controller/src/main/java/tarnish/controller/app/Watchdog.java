package tarnish.controller.app;

import java.io.IOException;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Tells systemd that the service lives, and only after the control loop has made new ticks: a hung
 * loop is not kept alive by a healthy thread beside it. Not part of control.
 */
final class Watchdog {
  private static final Logger LOG = LoggerFactory.getLogger(Watchdog.class);
  private static final long DEFAULT_MILLIS = 10_000;
  private static final long PATIENCE_S = 5;

  private final LongSupplier ticks;
  private final Consumer<String> tell;
  private long lastTicks;
  private boolean ready;

  /**
   * @param ticks that the loop has made so far
   * @param tell hands one line to systemd
   */
  Watchdog(LongSupplier ticks, Consumer<String> tell) {
    this.ticks = ticks;
    this.tell = tell;
  }

  /** One look; says nothing if the loop made no tick since the last one. */
  void look() {
    long now = ticks.getAsLong();
    if (now == lastTicks) {
      return;
    }
    lastTicks = now;
    tell.accept(ready ? "WATCHDOG=1" : "READY=1");
    ready = true;
  }

  /** Starts to look where systemd asks for it by its environment; else does nothing. */
  static void startIfAsked(LongSupplier ticks) {
    if (System.getenv("NOTIFY_SOCKET") == null) {
      return;
    }
    String timeoutMicros = System.getenv("WATCHDOG_USEC");
    // A third of the timeout: one look may come late.
    long periodMillis =
        timeoutMicros == null ? DEFAULT_MILLIS : Long.parseLong(timeoutMicros) / 3000;
    Watchdog watchdog = new Watchdog(ticks, Watchdog::notifySystemd);
    Thread thread = new Thread(() -> watchdog.run(periodMillis), "watchdog");
    thread.setDaemon(true);
    thread.start();
  }

  private void run(long periodMillis) {
    try {
      while (true) {
        look();
        Thread.sleep(ready ? periodMillis : StrictMath.min(periodMillis, 100));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Java 17 has no datagram sockets of the Unix family, so systemd's own program does it. */
  private static void notifySystemd(String line) {
    try {
      Process process =
          new ProcessBuilder("systemd-notify", "--no-block", line)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      if (!process.waitFor(PATIENCE_S, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (IOException e) {
      LOG.warn("systemd cannot be told: {}", e.getMessage());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
