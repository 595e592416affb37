package tarnish.controller.app;

import java.util.concurrent.locks.LockSupport;

/** When the loop ticks: with the clock on a real bench, as fast as asked on a simulated one. */
final class TickPace {
  private static final long WAKE_MILLIS = 20;

  /** Longest ticking in one go, so that a page is never kept waiting for long. */
  private static final long PAGE_WAITS_NANOS = 100_000_000;

  /** What is paced. */
  interface Loop {
    boolean isEnding();

    void tick();

    /** Lets the page see what has become of the ticks so far. */
    void publish();

    /** Says that the loop lives although it had nothing to do. */
    void idle();
  }

  private final long tickMillis;
  private final Loop loop;

  TickPace(long tickMillis, Loop loop) {
    this.tickMillis = tickMillis;
    this.loop = loop;
  }

  /** A late tick is not made up for: two in a row would see the same readings. */
  void inRealTime() {
    long periodNanos = tickMillis * 1_000_000;
    long dueNanos = System.nanoTime();
    while (!loop.isEnding()) {
      loop.tick();
      loop.publish();
      dueNanos = Math.max(dueNanos + periodNanos, System.nanoTime());
      while (!loop.isEnding() && System.nanoTime() < dueNanos) {
        LockSupport.parkNanos(dueNanos - System.nanoTime());
      }
    }
  }

  /**
   * Ticks as many times as the speed asks for, but never longer than the page can wait. What the
   * machine cannot keep up with is left out: the simulated bench then runs slower than asked.
   */
  void inSimulatedTime(double speed) throws InterruptedException {
    double ticksPerNano = speed / (tickMillis * 1e6);
    long lastNanos = System.nanoTime();
    double due = 1;
    while (!loop.isEnding()) {
      long nowNanos = System.nanoTime();
      due += (nowNanos - lastNanos) * ticksPerNano;
      lastNanos = nowNanos;
      boolean ticked = due >= 1;
      while (due >= 1 && !loop.isEnding() && System.nanoTime() - nowNanos < PAGE_WAITS_NANOS) {
        loop.tick();
        due--;
      }
      if (ticked) {
        due = Math.min(due, 1);
        loop.publish();
      }
      loop.idle();
      Thread.sleep(WAKE_MILLIS);
    }
  }
}
