package tarnish.controller.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputSpec;

/** Reads the devices of a rig, each under a name of the person's choice. */
final class DevicesReader {
  /** A name must be safe to write without quotes and to put into a sentence. */
  private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_-]{0,23}");

  private final Faults faults;

  private final Map<String, Place> places = new LinkedHashMap<>();
  private boolean sound;

  DevicesReader(Faults faults) {
    this.faults = faults;
  }

  /** The kind of a device; the words are those of a rig file. */
  private enum Kind {
    LINES("line instrument"),
    MODBUS("Modbus"),
    PINS("pins"),
    MAX31855("MAX31855"),
    MAX31856("MAX31856"),
    MAX31865("MAX31865"),
    MCP3208("MCP3208"),
    ADS1115("ADS1115");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** Whether every device could be read: only then can the wiring be held against them. */
  boolean isSound() {
    return sound;
  }

  List<DeviceSpec> read(Node node) {
    int before = faults.count();
    List<DeviceSpec> devices = new ArrayList<>();
    for (Named named : named(node, "devices", "a device by its name", faults)) {
      places.put(named.name(), named.place());
      device(named).ifPresent(devices::add);
    }
    sound = faults.count() == before;
    if (sound) {
      onePlaceEach(devices);
    }
    return devices;
  }

  /** An entry under a name of the person's choice. */
  record Named(String name, Place place, Node node) {}

  /** The entries of a group whose keys are names; names that are none or come twice are told. */
  static List<Named> named(Node node, String what, String expected, Faults faults) {
    List<Named> all = new ArrayList<>();
    if (!(node instanceof Node.Mapping mapping)) {
      faults.add(node.place(), node.words() + " as " + what, expected);
      return all;
    }
    Map<String, Place> seen = new LinkedHashMap<>();
    for (Node.Entry entry : mapping.entries()) {
      Place first = seen.putIfAbsent(entry.key(), entry.keyPlace());
      if (!NAME.matcher(entry.key()).matches()) {
        faults.add(
            entry.keyPlace(),
            "'" + Faults.shortened(entry.key()) + "' as a name in " + what,
            "a letter, then at most 23 letters, digits, - or _");
      } else if (first != null) {
        faults.add(
            entry.keyPlace(),
            "'" + entry.key() + "' a second time in " + what,
            "it once (first in line " + first.line() + ")");
      } else {
        all.add(new Named(entry.key(), entry.keyPlace(), entry.value()));
      }
    }
    return all;
  }

  private Optional<DeviceSpec> device(Named named) {
    if (!(named.node() instanceof Node.Mapping mapping)) {
      faults.add(
          named.node().place(),
          named.node().words() + " as the device " + named.name(),
          "its keys, first of all 'kind: line instrument'");
      return Optional.empty();
    }
    Optional<Kind> kind = kind(named, mapping);
    if (kind.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        switch (kind.get()) {
          case LINES -> new LineDeviceReader(faults).read(named);
          case MODBUS -> new ModbusDeviceReader(faults).read(named);
          case PINS -> new BoardDeviceReader(faults).pins(named);
          case MAX31855, MAX31856, MAX31865 ->
              new BoardDeviceReader(faults)
                  .frontEnd(named, DeviceSpec.ChipKind.valueOf(kind.get().name()));
          case MCP3208 -> new BoardDeviceReader(faults).mcp3208(named);
          case ADS1115 -> new BoardDeviceReader(faults).ads1115(named);
        });
  }

  /** The kind decides which other keys may stand there, so it is looked up before they are. */
  private Optional<Kind> kind(Named named, Node.Mapping mapping) {
    List<String> known = List.of(Kind.values()).stream().map(Kind::words).toList();
    for (Node.Entry entry : mapping.entries()) {
      if (!entry.key().equals("kind")) {
        continue;
      }
      String written = entry.value() instanceof Node.Scalar scalar ? scalar.text().strip() : "";
      for (Kind kind : Kind.values()) {
        if (kind.words().equals(written)) {
          return Optional.of(kind);
        }
      }
      faults.addUnknown(entry.value().place(), "the unknown kind", written, known);
      return Optional.empty();
    }
    faults.add(
        mapping.place(),
        "no 'kind' in the device " + named.name(),
        "'kind: " + String.join("' or 'kind: ", known) + "'");
    return Optional.empty();
  }

  private void onePlaceEach(List<DeviceSpec> devices) {
    Map<String, String> taken = new LinkedHashMap<>();
    for (DeviceSpec device : devices) {
      String other = taken.putIfAbsent(device.link().place(), device.name());
      if (other != null) {
        faults.add(
            places.get(device.name()),
            device.name() + " at " + device.link().place() + ", where " + other + " is",
            "one device there; units on one Modbus line are one device with a 'station' by each"
                + " input and output");
      }
    }
  }

  /** Reads the inputs of a device, each by {@code one}. */
  static List<InputSpec> inputs(
      Fields fields, String device, Faults faults, Function<Named, InputSpec> one) {
    return fields
        .optionalNode("inputs")
        .map(node -> named(node, "the inputs of " + device, "an input by its name", faults))
        .orElse(List.of())
        .stream()
        .map(one)
        .toList();
  }

  /** Reads the outputs of a device, each by {@code one}. */
  static List<OutputSpec> outputs(
      Fields fields, String device, Faults faults, Function<Named, OutputSpec> one) {
    return fields
        .optionalNode("outputs")
        .map(node -> named(node, "the outputs of " + device, "an output by its name", faults))
        .orElse(List.of())
        .stream()
        .map(one)
        .toList();
  }

  /** The group of one input or output. */
  static Fields group(Named named, String device, Faults faults, List<String> keys) {
    return new Fields(named.node(), named.name() + " of " + device, faults, keys);
  }
}
