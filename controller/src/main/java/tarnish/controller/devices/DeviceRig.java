package tarnish.controller.devices;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.LongSupplier;
import tarnish.controller.devices.setup.DeviceSetup;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Point;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Rig;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;

/**
 * A real bench: every channel and switch at the device that the rig file names. Neither {@link
 * #read} nor {@link #write} waits for a device.
 */
public final class DeviceRig implements Rig {
  /** An output that no device has confirmed for this long is a trouble. */
  private static final long UNCONFIRMED_MILLIS = 2_000;

  private static final long CLOSE_MILLIS = 3_000;

  private final LongSupplier clock;
  private final Map<String, DeviceWorker> workers = new LinkedHashMap<>();
  private final Map<Channel, InputSlot> slots = new EnumMap<>(Channel.class);
  private final Map<Channel, DeviceWorker> speakers = new EnumMap<>(Channel.class);
  private final Map<Channel, SensorDescription> sensors = new EnumMap<>(Channel.class);
  private volatile Calibrations calibrations;

  /**
   * Starts a thread for every device.
   *
   * @param makeDevice the adapter of a device
   * @param nanoClock monotonic time in ns
   */
  public DeviceRig(
      RigDescription rig,
      DeviceSetup setup,
      Calibrations calibrations,
      Function<DeviceSpec, Device> makeDevice,
      LongSupplier nanoClock) {
    this.clock = nanoClock;
    this.calibrations = calibrations;
    for (DeviceSpec spec : setup.devices()) {
      workers.put(
          spec.name(),
          new DeviceWorker(
              spec,
              makeDevice.apply(spec),
              outputs(spec, setup, nanoClock.getAsLong()),
              nanoClock));
    }
    for (SensorDescription sensor : rig.sensors()) {
      Point source = setup.sources().get(sensor.channel());
      if (source == null) {
        throw new IllegalArgumentException(sensor.channel().words() + " has no source");
      }
      sensors.put(sensor.channel(), sensor);
      DeviceWorker speaker = workers.get(source.device());
      speakers.put(sensor.channel(), speaker);
      slots.put(sensor.channel(), speaker.input(source.name()).orElseThrow());
    }
    workers.values().forEach(DeviceWorker::start);
  }

  private static List<OutputSlot> outputs(DeviceSpec spec, DeviceSetup setup, long nowNanos) {
    List<OutputSlot> slots = new ArrayList<>();
    for (OutputSpec output : spec.outputs()) {
      Point here = new Point(output.name(), spec.name());
      for (Switch each : Switch.values()) {
        if (here.equals(setup.sinks().get(each))) {
          slots.add(new OutputSlot(output, each, nowNanos));
        }
      }
      if (setup.heaterDuty().filter(here::equals).isPresent()) {
        slots.add(new OutputSlot(output, null, nowNanos));
      }
    }
    return slots;
  }

  @Override
  public void read(Readings into) {
    long now = clock.getAsLong();
    for (Map.Entry<Channel, InputSlot> each : slots.entrySet()) {
      Channel channel = each.getKey();
      Reading reading = reading(channel, each.getValue(), now);
      if (reading instanceof Reading.Good good) {
        into.good(channel, good.value());
      } else {
        into.bad(channel, ((Reading.Bad) reading).reason());
      }
    }
  }

  private Reading reading(Channel channel, InputSlot slot, long nowNanos) {
    Reading reading = slot.reading(nowNanos);
    if (!(reading instanceof Reading.Good good) || channel.kind() == Channel.Kind.CONTACT) {
      return reading;
    }
    double value = calibrations.correct(channel, good.value());
    SensorDescription sensor = sensors.get(channel);
    if (value < sensor.rangeMin()) {
      return new Reading.Bad(BadReason.BELOW_RANGE);
    }
    return value > sensor.rangeMax()
        ? new Reading.Bad(BadReason.ABOVE_RANGE)
        : new Reading.Good(value);
  }

  @Override
  public void write(Outputs outputs) {
    workers.values().forEach(worker -> worker.hand(outputs));
  }

  /** How every device does. May be called by any thread. */
  public List<DeviceHealth> health() {
    return workers.values().stream().map(DeviceWorker::health).toList();
  }

  /** Devices whose outputs may not be what they should, each in a sentence; mostly none. */
  public List<String> unconfirmed() {
    List<String> sentences = new ArrayList<>();
    for (DeviceWorker worker : workers.values()) {
      DeviceHealth health = worker.health();
      if (health.unconfirmedMillis() > UNCONFIRMED_MILLIS) {
        sentences.add(
            worker.spec().name()
                + " at "
                + health.place()
                + " has not confirmed its outputs"
                + (health.lastTrouble().isEmpty() ? "." : ": " + health.lastTrouble() + "."));
      }
    }
    return sentences;
  }

  /** What else is known of a channel. May be called by any thread. */
  public ChannelTalk talk(Channel channel) {
    InputSlot slot = slots.get(channel);
    DeviceHealth health = speakers.get(channel).health();
    return new ChannelTalk(
        health.device() + " at " + health.place() + ", " + health.condition().words(),
        slot.raw(),
        slot.reading(clock.getAsLong()),
        slot.atNanos(),
        health.lastMillis());
  }

  /** Takes other corrections into use from the next reading on. */
  public void use(Calibrations newer) {
    calibrations = newer;
  }

  /** Inputs that are no sensor of the rig, such as a balance: name and reading in SI units. */
  public Map<String, Reading> others() {
    Map<String, Reading> others = new LinkedHashMap<>();
    for (DeviceWorker worker : workers.values()) {
      for (InputSlot slot : worker.inputs()) {
        if (!slots.containsValue(slot)) {
          others.put(
              new Point(slot.spec.name(), worker.spec().name()).toString(),
              slot.reading(clock.getAsLong()));
        }
      }
    }
    return others;
  }

  @Override
  public void close() {
    workers.values().forEach(DeviceWorker::beginClosing);
    long end = System.nanoTime() + CLOSE_MILLIS * 1_000_000;
    for (DeviceWorker worker : workers.values()) {
      worker.awaitClosed((end - System.nanoTime()) / 1_000_000);
    }
  }
}
