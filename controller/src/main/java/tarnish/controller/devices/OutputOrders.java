package tarnish.controller.devices;

import java.util.List;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.shared.rig.Outputs;

/**
 * The outputs of one device: what the loop handed over last, and what of it the device has
 * confirmed. Orders are given by the device's thread; any thread hands over and looks.
 */
final class OutputOrders {
  private static final Logger LOG = LoggerFactory.getLogger(OutputOrders.class);

  /** Orders are repeated at this pace even if unchanged: a device with a watchdog wants it. */
  private static final long REFRESH_NANOS = 500_000_000L;

  /** Outputs that nobody has renewed for this long are switched off: the loop must be stuck. */
  static final long ORDERS_LAST_NANOS = 2_000_000_000L;

  private final Device device;
  private final DeviceLink link;
  private final LongSupplier clock;
  private final List<OutputSlot> slots;
  private volatile Handed handed;

  /** Outputs as the loop handed them over, and when. */
  private record Handed(Outputs outputs, long atNanos) {}

  OutputOrders(List<OutputSlot> slots, Device device, DeviceLink link, LongSupplier clock) {
    this.device = device;
    this.link = link;
    this.clock = clock;
    this.slots = List.copyOf(slots);
    hand(Outputs.OFF);
  }

  /** Takes the newest outputs; never blocks. */
  void hand(Outputs newest) {
    handed = new Handed(newest, clock.getAsLong());
  }

  /** What the loop wants, or everything off when the loop has gone quiet. */
  private Outputs wanted() {
    Handed now = handed;
    return clock.getAsLong() - now.atNanos > ORDERS_LAST_NANOS ? Outputs.OFF : now.outputs;
  }

  /** Off before on, so that nothing is ever on that was not meant to be together. */
  void give() {
    Outputs wanted = wanted();
    for (int pass = 0; pass < 2; pass++) {
      for (OutputSlot slot : slots) {
        int target = slot.target(wanted);
        boolean itsPass = (target == 0) == (pass == 0);
        if (itsPass && link.mayTalk() && slot.isDue(wanted, clock.getAsLong(), REFRESH_NANOS)) {
          order(slot, target);
        }
      }
    }
  }

  private void order(OutputSlot slot, int value) {
    long before = clock.getAsLong();
    try {
      device.order(slot.spec, value);
      link.answered(before);
      slot.confirm(value, clock.getAsLong());
    } catch (DeviceTrouble e) {
      slot.forget();
      link.trouble(e);
    }
  }

  /** A device that comes back is told everything anew. */
  void forget() {
    slots.forEach(OutputSlot::forget);
  }

  /** The last orders of all, given even while the device should be left in peace. */
  void allOff() {
    for (OutputSlot slot : slots) {
      if (link.isOpen()) {
        try {
          device.order(slot.spec, 0);
          slot.confirm(0, clock.getAsLong());
        } catch (DeviceTrouble | RuntimeException e) {
          LOG.error(
              "{}: {} not confirmed off: {}", link.deviceName(), slot.words(), e.getMessage());
        }
      }
    }
  }

  /** How long the output that has waited longest has gone without being confirmed. */
  long unconfirmedNanos() {
    long now = clock.getAsLong();
    long longest = 0;
    for (OutputSlot slot : slots) {
      longest = Math.max(longest, now - slot.confirmedNanos());
    }
    return longest;
  }
}
