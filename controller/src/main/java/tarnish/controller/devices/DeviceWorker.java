package tarnish.controller.devices;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.devices.DeviceHealth.Condition;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.shared.rig.Outputs;

/**
 * Serves one device on a thread of its own: gives it the newest orders, asks it what is due, and
 * opens it again after a loss. Other threads only hand over outputs and look.
 */
final class DeviceWorker {
  private static final Logger LOG = LoggerFactory.getLogger(DeviceWorker.class);

  /** Orders are repeated at this pace even if unchanged: a device with a watchdog wants it. */
  private static final long REFRESH_NANOS = 500_000_000L;

  /** Outputs that nobody has renewed for this long are switched off: the loop must be stuck. */
  static final long ORDERS_LAST_NANOS = 2_000_000_000L;

  /** Troubles in a row after which the way to the device is opened anew. */
  private static final int TROUBLES_IN_A_ROW = 3;

  /** Opening a port restarts many a board, which then says nothing for a while. */
  private static final long GRACE_NANOS = 3_000_000_000L;

  private static final long FIRST_WAIT_NANOS = 250_000_000L;
  private static final long LONGEST_WAIT_NANOS = 8_000_000_000L;
  private static final long IDLE_NANOS = 20_000_000L;

  private final DeviceSpec spec;
  private final Device device;
  private final LongSupplier clock;
  private final List<InputSlot> inputs = new ArrayList<>();
  private final List<OutputSlot> outputs;
  private final Thread thread;

  private volatile Handed handed;
  private volatile boolean closing;
  private volatile DeviceHealth health;

  // Touched by the device's thread only, from here on.
  private boolean open;
  private long openedNanos;
  private long retryNanos = Long.MIN_VALUE;
  private long waitNanos = FIRST_WAIT_NANOS;
  private long quietUntilNanos = Long.MIN_VALUE;
  private int troublesInARow;
  private Condition condition = Condition.NEVER_SEEN;
  private double lastMillis;
  private double worstMillis;
  private long answers;
  private long troubles;
  private long openings;
  private String lastTrouble = "";

  /** Outputs as the loop handed them over, and when. */
  private record Handed(Outputs outputs, long atNanos) {}

  DeviceWorker(DeviceSpec spec, Device device, List<OutputSlot> outputs, LongSupplier clock) {
    this.spec = spec;
    this.device = device;
    this.clock = clock;
    this.outputs = List.copyOf(outputs);
    spec.inputs().forEach(input -> inputs.add(new InputSlot(input, spec.answerWithinS())));
    handed = new Handed(Outputs.OFF, clock.getAsLong());
    thread = new Thread(this::run, "device " + spec.name());
    thread.setDaemon(true);
    publish();
  }

  void start() {
    thread.start();
  }

  /** Hands over the newest outputs; never blocks. */
  void hand(Outputs newest) {
    handed = new Handed(newest, clock.getAsLong());
    LockSupport.unpark(thread);
  }

  Optional<InputSlot> input(String name) {
    return inputs.stream().filter(slot -> slot.spec.name().equals(name)).findFirst();
  }

  List<InputSlot> inputs() {
    return inputs;
  }

  DeviceSpec spec() {
    return spec;
  }

  DeviceHealth health() {
    DeviceHealth last = health;
    return new DeviceHealth(
        last.device(),
        last.place(),
        last.condition(),
        last.lastMillis(),
        last.worstMillis(),
        last.answers(),
        last.troubles(),
        last.openings(),
        last.lastTrouble(),
        unconfirmedNanos() / 1_000_000);
  }

  /** How long the output that has waited longest has gone without being confirmed. */
  private long unconfirmedNanos() {
    long now = clock.getAsLong();
    long longest = 0;
    for (OutputSlot output : outputs) {
      longest = Math.max(longest, now - output.confirmedNanos());
    }
    return longest;
  }

  /** Asks the thread to switch everything off and end. */
  void beginClosing() {
    closing = true;
    LockSupport.unpark(thread);
  }

  void awaitClosed(long millis) {
    try {
      thread.join(Math.max(1, millis));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void run() {
    while (!closing) {
      long idle;
      try {
        idle = turn();
      } catch (RuntimeException e) {
        // A library's bug must not silence the device for good.
        LOG.error("{}: unexpected failure", spec.name(), e);
        lose("unexpected failure: " + e);
        idle = IDLE_NANOS;
      }
      if (idle > 0 && !closing) {
        LockSupport.parkNanos(idle);
      }
    }
    allOff();
    device.close();
  }

  /** Does what is due; gives back how long nothing will be, in ns. */
  long turn() {
    if (!open && !tryOpen()) {
      return Math.min(IDLE_NANOS * 10, Math.max(1, retryNanos - clock.getAsLong()));
    }
    if (clock.getAsLong() < quietUntilNanos) {
      return quietUntilNanos - clock.getAsLong();
    }
    giveOrders();
    for (InputSlot slot : inputs) {
      if (!closing && mayTalk() && clock.getAsLong() >= slot.dueNanos) {
        ask(slot);
        giveOrders();
      }
    }
    publish();
    return untilDue();
  }

  private boolean mayTalk() {
    return open && clock.getAsLong() >= quietUntilNanos;
  }

  private long untilDue() {
    long now = clock.getAsLong();
    long next = now + IDLE_NANOS;
    for (InputSlot slot : inputs) {
      next = Math.min(next, slot.dueNanos);
    }
    return Math.max(0, next - now);
  }

  private boolean tryOpen() {
    if (clock.getAsLong() < retryNanos) {
      return false;
    }
    try {
      device.open();
    } catch (DeviceTrouble | RuntimeException e) {
      troubles++;
      lose(e.getMessage() == null ? e.toString() : e.getMessage());
      return false;
    }
    open = true;
    openings++;
    openedNanos = clock.getAsLong();
    troublesInARow = 0;
    outputs.forEach(OutputSlot::forget);
    inputs.forEach(slot -> slot.dueNanos = Long.MIN_VALUE);
    publish();
    return true;
  }

  /** What the loop wants, or everything off when the loop has gone quiet. */
  private Outputs wanted() {
    Handed now = handed;
    return clock.getAsLong() - now.atNanos > ORDERS_LAST_NANOS ? Outputs.OFF : now.outputs;
  }

  /** Off before on, so that nothing is ever on that was not meant to be together. */
  private void giveOrders() {
    Outputs wanted = wanted();
    for (int pass = 0; pass < 2; pass++) {
      for (OutputSlot slot : outputs) {
        int target = slot.target(wanted);
        boolean itsPass = (target == 0) == (pass == 0);
        if (itsPass && mayTalk() && slot.isDue(wanted, clock.getAsLong(), REFRESH_NANOS)) {
          order(slot, target);
        }
      }
    }
  }

  private void order(OutputSlot slot, int value) {
    long before = clock.getAsLong();
    try {
      device.order(slot.spec, value);
      answered(before);
      slot.confirm(value, clock.getAsLong());
    } catch (DeviceTrouble e) {
      slot.forget();
      trouble(e);
    }
  }

  private void ask(InputSlot slot) {
    long before = clock.getAsLong();
    long every = (long) (slot.spec.everyS() * 1e9);
    slot.dueNanos = Math.max(before, slot.dueNanos + every);
    if (slot.dueNanos < before + every / 2) {
      slot.dueNanos = before + every;
    }
    try {
      slot.take(device.ask(slot.spec), clock.getAsLong());
      answered(before);
    } catch (DeviceTrouble e) {
      slot.trouble(e, clock.getAsLong());
      trouble(e);
    }
  }

  private void answered(long beforeNanos) {
    lastMillis = (clock.getAsLong() - beforeNanos) / 1e6;
    worstMillis = Math.max(worstMillis, lastMillis);
    answers++;
    troublesInARow = 0;
    waitNanos = FIRST_WAIT_NANOS;
    if (condition != Condition.ANSWERING) {
      LOG.info("{} at {} answers.", spec.name(), spec.link().place());
      condition = Condition.ANSWERING;
    }
  }

  private void trouble(DeviceTrouble e) {
    troubles++;
    troublesInARow++;
    lastTrouble = e.getMessage();
    if (condition == Condition.ANSWERING && e.kind() != DeviceTrouble.Kind.REFUSED) {
      condition = Condition.FALTERING;
      LOG.warn("{} falters: {}", spec.name(), e.getMessage());
    }
    boolean young = clock.getAsLong() - openedNanos < GRACE_NANOS;
    switch (e.kind()) {
      case LOST -> lose(e.getMessage());
      case REFUSED -> troublesInARow = 0;
      default -> {
        if (troublesInARow >= TROUBLES_IN_A_ROW && !young) {
          lose(e.getMessage());
        } else {
          // A late answer must not be taken for the answer to the next question.
          quietUntilNanos = clock.getAsLong() + (long) (spec.answerWithinS() * 1e9);
          device.forgetLateAnswers();
        }
      }
    }
    publish();
  }

  private void lose(String why) {
    if (condition != Condition.LOST) {
      LOG.warn("{} at {} is lost: {}", spec.name(), spec.link().place(), why);
    }
    device.close();
    open = false;
    condition = Condition.LOST;
    lastTrouble = why;
    long now = clock.getAsLong();
    inputs.forEach(slot -> slot.fail(why, now));
    retryNanos = now + waitNanos;
    waitNanos = Math.min(LONGEST_WAIT_NANOS, 2 * waitNanos);
    publish();
  }

  private void allOff() {
    for (OutputSlot slot : outputs) {
      if (open) {
        try {
          device.order(slot.spec, 0);
          slot.confirm(0, clock.getAsLong());
        } catch (DeviceTrouble | RuntimeException e) {
          LOG.error("{}: {} not confirmed off: {}", spec.name(), slot.words(), e.getMessage());
        }
      }
    }
  }

  private void publish() {
    health =
        new DeviceHealth(
            spec.name(),
            spec.link().place(),
            condition,
            lastMillis,
            worstMillis,
            answers,
            troubles,
            openings,
            lastTrouble,
            0);
  }
}
