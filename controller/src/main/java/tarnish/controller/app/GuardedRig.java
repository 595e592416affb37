package tarnish.controller.app;

import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Rig;

/**
 * Stands between the loop and a bench, so that a watchdog can shut the bench while the loop hangs.
 * Once barred, every write becomes the safe outputs until the bar is lifted. A write takes the lock
 * for no longer than the device's own write, which must not block (see {@link Rig}).
 */
final class GuardedRig implements Rig {
  private final Rig rig;
  private final Outputs safe;
  private final Object lock = new Object();
  private boolean barred;

  GuardedRig(Rig rig, Outputs safe) {
    this.rig = rig;
    this.safe = safe;
  }

  @Override
  public void read(Readings into) {
    rig.read(into);
  }

  @Override
  public void write(Outputs outputs) {
    synchronized (lock) {
      rig.write(barred ? safe : outputs);
    }
  }

  /** Shuts the bench now and keeps it shut; from any thread. */
  void bar() {
    synchronized (lock) {
      barred = true;
      rig.write(safe);
    }
  }

  /** Lets the loop write again. */
  void lift() {
    synchronized (lock) {
      barred = false;
    }
  }

  boolean isBarred() {
    synchronized (lock) {
      return barred;
    }
  }

  @Override
  public void close() {
    synchronized (lock) {
      barred = true;
      rig.write(safe);
      rig.close();
    }
  }
}
