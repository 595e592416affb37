package tarnish.controller.app;

import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Shuts the bench if the control loop has not come to the end of a tick for a while. It has a
 * thread of its own and leans on nothing that the loop may hold. The heartbeat output stops with
 * the loop by itself; this is for outputs that no relay watches.
 */
final class LoopWatchdog implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(LoopWatchdog.class);

  /** With the look-out below everything is off within the 2 s that a hang may last. */
  static final long PATIENCE_MILLIS = 1500;

  private static final long LOOK_MILLIS = 100;
  private static final long NANOS_PER_MILLI = 1_000_000;

  private final Supplier<GuardedRig> rig;
  private final LongSupplier nanos;
  private final AtomicLong lastNanos;
  private final AtomicLong progress = new AtomicLong();
  private final Thread thread = new Thread(this::watch, "loop watchdog");
  private volatile boolean closing;
  private volatile boolean tripped;

  /**
   * @param rig the bench as it is now; called from any thread
   * @param nanos monotonic time in ns
   */
  LoopWatchdog(Supplier<GuardedRig> rig, LongSupplier nanos) {
    this.rig = rig;
    this.nanos = nanos;
    lastNanos = new AtomicLong(nanos.getAsLong());
    thread.setDaemon(true);
  }

  void start() {
    lastNanos.set(nanos.getAsLong());
    thread.start();
  }

  /** The loop has come to the end of a tick, or has none to do. */
  void tickDone() {
    lastNanos.set(nanos.getAsLong());
    progress.incrementAndGet();
  }

  /** Ticks done; what feeds a watchdog outside only while it moves. */
  long progress() {
    return progress.get();
  }

  /** Whether the bench was shut since the last call; the loop reports it and lifts the bar. */
  boolean takeTrip() {
    boolean was = tripped;
    tripped = false;
    return was;
  }

  /** One look; what the thread does ten times a second. */
  void look() {
    long idleMillis = (nanos.getAsLong() - lastNanos.get()) / NANOS_PER_MILLI;
    GuardedRig now = rig.get();
    if (idleMillis > PATIENCE_MILLIS && !now.isBarred()) {
      tripped = true;
      now.bar();
      LOG.error("The control loop has not come for {} ms; every output is off.", idleMillis);
    }
  }

  private void watch() {
    while (!closing) {
      try {
        look();
        Thread.sleep(LOOK_MILLIS);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      } catch (RuntimeException e) {
        LOG.error("The watchdog could not shut the bench; it tries again.", e);
      }
    }
  }

  @Override
  public void close() {
    closing = true;
    thread.interrupt();
  }
}
