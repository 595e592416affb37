package tarnish.controller.devices;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.shared.rig.Outputs;

/**
 * Serves one device on a thread of its own: gives it the newest orders, asks it what is due, and
 * opens it again after a loss. Other threads only hand over outputs and look.
 */
final class DeviceWorker {
  private static final Logger LOG = LoggerFactory.getLogger(DeviceWorker.class);
  private static final long IDLE_NANOS = 20_000_000L;

  private final DeviceSpec spec;
  private final Device device;
  private final LongSupplier clock;
  private final List<InputSlot> inputs = new ArrayList<>();
  private final DeviceLogbook logbook;
  private final DeviceLink link;
  private final OutputOrders orders;
  private final Thread thread;
  private volatile boolean closing;

  DeviceWorker(DeviceSpec spec, Device device, List<OutputSlot> outputs, LongSupplier clock) {
    this.spec = spec;
    this.device = device;
    this.clock = clock;
    spec.inputs().forEach(input -> inputs.add(new InputSlot(input, spec.answerWithinS())));
    logbook = new DeviceLogbook(spec);
    link = new DeviceLink(spec, device, clock, logbook, this::failInputs);
    orders = new OutputOrders(outputs, device, link, clock);
    thread = new Thread(this::run, "device " + spec.name());
    thread.setDaemon(true);
  }

  void start() {
    thread.start();
  }

  /** Hands over the newest outputs; never blocks. */
  void hand(Outputs newest) {
    orders.hand(newest);
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
    return logbook.health(orders.unconfirmedNanos() / 1_000_000);
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
        link.lose("unexpected failure: " + e);
        idle = IDLE_NANOS;
      }
      if (idle > 0 && !closing) {
        LockSupport.parkNanos(idle);
      }
    }
    orders.allOff();
    link.close();
  }

  /** Does what is due; gives back how long nothing will be, in ns. */
  long turn() {
    if (!link.isOpen()) {
      if (!link.tryOpen()) {
        return Math.min(IDLE_NANOS * 10, Math.max(1, link.retryInNanos()));
      }
      orders.forget();
      inputs.forEach(slot -> slot.dueNanos = Long.MIN_VALUE);
    }
    if (link.quietForNanos() > 0) {
      return link.quietForNanos();
    }
    orders.give();
    for (InputSlot slot : inputs) {
      if (!closing && link.mayTalk() && clock.getAsLong() >= slot.dueNanos) {
        ask(slot);
        orders.give();
      }
    }
    logbook.publish();
    return untilDue();
  }

  private long untilDue() {
    long now = clock.getAsLong();
    long next = now + IDLE_NANOS;
    for (InputSlot slot : inputs) {
      next = Math.min(next, slot.dueNanos);
    }
    return Math.max(0, next - now);
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
      link.answered(before);
    } catch (DeviceTrouble e) {
      slot.trouble(e, clock.getAsLong());
      link.trouble(e);
    }
  }

  private void failInputs(String why) {
    long now = clock.getAsLong();
    inputs.forEach(slot -> slot.fail(why, now));
  }
}
