package tarnish.controller.access;

import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/**
 * Threads for what may wait, so that the control loop never does: they end with the program, and
 * ask for the least priority, which Linux heeds only where it is told to.
 */
public final class Background {
  private static final int IDLE_S = 10;

  private Background() {}

  /** A thread of this name, not started yet. */
  public static Thread thread(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.setPriority(Thread.MIN_PRIORITY);
    return thread;
  }

  /**
   * Does one thing at a time, without a thread while there is nothing to do.
   *
   * @param waitingMax how many more may wait; what comes then is rejected
   */
  public static ThreadPoolExecutor oneAtATime(String name, int waitingMax) {
    return new ThreadPoolExecutor(
        0,
        1,
        IDLE_S,
        TimeUnit.SECONDS,
        new ArrayBlockingQueue<>(waitingMax),
        work -> thread(name, work));
  }
}
