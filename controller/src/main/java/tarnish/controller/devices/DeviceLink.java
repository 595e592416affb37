package tarnish.controller.devices;

import java.util.function.Consumer;
import java.util.function.LongSupplier;
import tarnish.controller.devices.setup.DeviceSpec;

/**
 * The way to one device: opened, left in peace after a trouble, given up after several in a row,
 * and tried again after ever longer pauses. Touched by the device's thread only.
 */
final class DeviceLink {
  /** Troubles in a row after which the way to the device is opened anew. */
  private static final int TROUBLES_IN_A_ROW = 3;

  /** Opening a port restarts many a board, which then says nothing for a while. */
  private static final long GRACE_NANOS = 3_000_000_000L;

  private static final long FIRST_WAIT_NANOS = 250_000_000L;
  private static final long LONGEST_WAIT_NANOS = 8_000_000_000L;

  private final DeviceSpec spec;
  private final Device device;
  private final LongSupplier clock;
  private final DeviceLogbook logbook;
  private final Consumer<String> whenLost;

  private boolean open;
  private long openedNanos;
  private long retryNanos = Long.MIN_VALUE;
  private long waitNanos = FIRST_WAIT_NANOS;
  private long quietUntilNanos = Long.MIN_VALUE;
  private int troublesInARow;

  /**
   * @param whenLost is told why at every loss
   */
  DeviceLink(
      DeviceSpec spec,
      Device device,
      LongSupplier clock,
      DeviceLogbook logbook,
      Consumer<String> whenLost) {
    this.spec = spec;
    this.device = device;
    this.clock = clock;
    this.logbook = logbook;
    this.whenLost = whenLost;
  }

  String deviceName() {
    return spec.name();
  }

  boolean isOpen() {
    return open;
  }

  /** Whether the device may be asked or told something now. */
  boolean mayTalk() {
    return open && quietForNanos() <= 0;
  }

  /** How long the device is still left in peace; not positive: no longer. */
  long quietForNanos() {
    return quietUntilNanos == Long.MIN_VALUE ? 0 : quietUntilNanos - clock.getAsLong();
  }

  /** How long the next try to open is off; not positive: it is due. */
  long retryInNanos() {
    return retryNanos == Long.MIN_VALUE ? 0 : retryNanos - clock.getAsLong();
  }

  /** Opens the way if it is time to; tells whether it is open now anew. */
  boolean tryOpen() {
    if (retryInNanos() > 0) {
      return false;
    }
    try {
      device.open();
    } catch (DeviceTrouble | RuntimeException e) {
      logbook.notOpened();
      lose(e.getMessage() == null ? e.toString() : e.getMessage());
      return false;
    }
    open = true;
    openedNanos = clock.getAsLong();
    troublesInARow = 0;
    logbook.opened();
    return true;
  }

  /** An answer came to what was begun at {@code beforeNanos}. */
  void answered(long beforeNanos) {
    troublesInARow = 0;
    waitNanos = FIRST_WAIT_NANOS;
    logbook.answered((clock.getAsLong() - beforeNanos) / 1e6);
  }

  void trouble(DeviceTrouble trouble) {
    troublesInARow++;
    logbook.trouble(trouble);
    boolean young = clock.getAsLong() - openedNanos < GRACE_NANOS;
    switch (trouble.kind()) {
      case LOST -> lose(trouble.getMessage());
      case REFUSED -> troublesInARow = 0;
      default -> {
        if (troublesInARow >= TROUBLES_IN_A_ROW && !young) {
          lose(trouble.getMessage());
        } else {
          // A late answer must not be taken for the answer to the next question.
          quietUntilNanos = clock.getAsLong() + (long) (spec.answerWithinS() * 1e9);
          device.forgetLateAnswers();
        }
      }
    }
    logbook.publish();
  }

  void lose(String why) {
    device.close();
    open = false;
    logbook.lost(why);
    whenLost.accept(why);
    retryNanos = clock.getAsLong() + waitNanos;
    waitNanos = Math.min(LONGEST_WAIT_NANOS, 2 * waitNanos);
    logbook.publish();
  }

  void close() {
    device.close();
  }
}
