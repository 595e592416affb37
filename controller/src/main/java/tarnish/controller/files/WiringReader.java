package tarnish.controller.files;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.controller.devices.setup.DeviceSetup;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Point;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NearestWord;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.SensorElement;
import tarnish.shared.rig.Switch;

/** Reads which input is which sensor and which output is which switch, and whether that fits. */
final class WiringReader {
  /** A pressed stop must be seen in well under a second. Common practice. */
  private static final double STOP_EVERY_MAX_S = 0.5;

  private static final String DUTY = "heater duty";
  private static final List<String> SWITCH_KEYS =
      java.util.stream.Stream.concat(
              Arrays.stream(Switch.values()).map(Switch::words), java.util.stream.Stream.of(DUTY))
          .toList();

  private final RigDescription rig;
  private final List<DeviceSpec> devices;
  private final boolean sound;
  private final Faults faults;

  /**
   * @param sound whether the devices could be read; if not, nothing is held against them
   */
  WiringReader(RigDescription rig, List<DeviceSpec> devices, boolean sound, Faults faults) {
    this.sound = sound;
    this.rig = rig;
    this.devices = devices;
    this.faults = faults;
  }

  /**
   * @param sources the 'source' of each sensor as written
   * @param switches the section of that name
   */
  DeviceSetup read(Map<Channel, Node> sources, Optional<Node> switches) {
    Map<Channel, Point> read = new EnumMap<>(Channel.class);
    Map<Point, Channel> taken = new HashMap<>();
    for (SensorDescription sensor : rig.sensors()) {
      Node written = sources.get(sensor.channel());
      if (written != null) {
        input(written)
            .ifPresent(
                found -> {
                  fits(written.place(), sensor, found);
                  Channel other = taken.putIfAbsent(found.point(), sensor.channel());
                  if (other != null) {
                    faults.add(
                        written.place(),
                        "'"
                            + found.point()
                            + "' for both "
                            + other.words()
                            + " and "
                            + sensor.channel().words(),
                        "an input for each sensor: one that stands for two checks nothing");
                  }
                  read.put(sensor.channel(), found.point());
                });
      }
    }
    Map<Switch, Point> sinks = new EnumMap<>(Switch.class);
    Optional<Point> duty = switches.flatMap(node -> switches(node, sinks));
    return new DeviceSetup(devices, read, sinks, duty);
  }

  private Optional<Point> switches(Node node, Map<Switch, Point> sinks) {
    Fields fields = new Fields(node, "switches", faults, SWITCH_KEYS);
    Map<Point, String> taken = new HashMap<>();
    for (Switch each : Switch.values()) {
      sink(fields, each.words(), false, taken).ifPresent(point -> sinks.put(each, point));
    }
    if (rig.heater().actuator() == Heater.Actuator.ANALOGUE) {
      return sink(fields, DUTY, true, taken);
    }
    if (fields.has(DUTY)) {
      fields.fault(DUTY, "'" + DUTY + "' for a relay", "it only for an analogue actuator");
    }
    return Optional.empty();
  }

  private Optional<Point> sink(Fields fields, String key, boolean duty, Map<Point, String> taken) {
    Optional<Node> node = fields.node(key, "HEAT of board");
    Optional<Point> point = node.flatMap(it -> point(it, "HEAT of board", this::outputNames));
    if (point.isEmpty()) {
      return point;
    }
    OutputSpec output = device(point.get()).output(point.get().name()).orElseThrow();
    if (output.where().takesDuty() != duty) {
      fields.fault(
          key,
          "'" + point.get() + "', which " + (duty ? "is only on or off" : "takes a duty"),
          duty ? "an output that takes a duty" : "an output that is on or off");
    }
    String other = taken.putIfAbsent(point.get(), key);
    if (other != null) {
      fields.fault(
          key, "'" + point.get() + "' for both " + other + " and " + key, "an output for each");
    }
    return point;
  }

  private record Found(Point point, DeviceSpec device, InputSpec input) {}

  private Optional<Found> input(Node written) {
    return point(written, "T1 of board", this::inputNames)
        .map(
            point -> {
              DeviceSpec device = device(point);
              return new Found(point, device, device.input(point.name()).orElseThrow());
            });
  }

  private interface Names {
    List<String> of(DeviceSpec device);
  }

  private List<String> inputNames(DeviceSpec device) {
    return device.inputs().stream().map(InputSpec::name).toList();
  }

  private List<String> outputNames(DeviceSpec device) {
    return device.outputs().stream().map(OutputSpec::name).toList();
  }

  private DeviceSpec device(Point point) {
    return devices.stream().filter(d -> d.name().equals(point.device())).findFirst().orElseThrow();
  }

  private Optional<Point> point(Node node, String example, Names names) {
    String text = node instanceof Node.Scalar scalar ? scalar.text().strip() : "";
    String[] parts = text.split(" of ", -1);
    if (parts.length != 2) {
      faults.add(node.place(), node.words(), "a name 'of' a device, e.g. " + example);
      return Optional.empty();
    }
    List<String> known = devices.stream().map(DeviceSpec::name).toList();
    if (!known.contains(parts[1])) {
      if (sound) {
        faults.addUnknown(node.place(), "the unknown device", parts[1], known);
      }
      return Optional.empty();
    }
    Point point = new Point(parts[0], parts[1]);
    List<String> there = names.of(device(point));
    if (there.contains(parts[0])) {
      return Optional.of(point);
    }
    if (!sound) {
      return Optional.empty();
    }
    String meant =
        NearestWord.to(parts[0], there).map(w -> "; did you mean '" + w + "'?").orElse("");
    faults.add(
        node.place(),
        "'" + Faults.shortened(text) + "'",
        there.isEmpty()
            ? "another device: " + parts[1] + " has none of these"
            : "one of " + String.join(", ", there) + " of " + parts[1] + meant);
    return Optional.empty();
  }

  private void fits(Place place, SensorDescription sensor, Found found) {
    if (!sound) {
      return;
    }
    Channel channel = sensor.channel();
    Dimension wanted =
        switch (channel.kind()) {
          case TEMPERATURE -> Dimension.TEMPERATURE;
          case PRESSURE -> Dimension.PRESSURE;
          case FRACTION -> Dimension.FRACTION;
          case CONTACT -> Dimension.NUMBER;
        };
    Dimension given = found.input().scaling().dimension();
    if (given != wanted) {
      faults.add(
          place,
          "'" + found.point() + "', which gives " + words(given),
          words(wanted) + " for the " + channel.words());
    }
    SensorElement chip = chipElement(found.device());
    if (chip != null && found.input().name().equals("sensor") && chip != sensor.element()) {
      faults.add(
          place,
          "'" + found.point() + "', a chip for " + chip.words(),
          "the element of this sensor, " + sensor.element().words());
    }
    if (channel == Channel.EMERGENCY_STOP && found.input().everyS() > STOP_EVERY_MAX_S) {
      faults.add(
          place,
          "the emergency stop asked less often than every 500 ms",
          "'every: 250 ms' or less by " + found.point());
    }
  }

  private static SensorElement chipElement(DeviceSpec device) {
    return device.link() instanceof DeviceSpec.SpiChip chip
        ? chip.settings().element().orElse(null)
        : null;
  }

  private static String words(Dimension dimension) {
    return dimension == Dimension.NUMBER ? "a contact" : dimension.words();
  }
}
