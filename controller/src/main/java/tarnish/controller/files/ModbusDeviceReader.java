package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace.InRegister;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Register.Kind;
import tarnish.controller.devices.setup.Register.Table;
import tarnish.controller.devices.setup.Register.WordOrder;
import tarnish.controller.devices.setup.Scaling;
import tarnish.controller.files.DevicesReader.Named;

/** Reads a Modbus device with its register map. */
final class ModbusDeviceReader {
  private static final List<String> KEYS =
      List.of(
          "kind",
          "line",
          "port",
          "baud",
          "parity",
          "stop bits",
          "host",
          "tcp port",
          "beyond this machine",
          "station",
          "answer within",
          "inputs",
          "outputs");

  private static final int STATION_MAX = 247;

  private final Faults faults;
  private int station;

  ModbusDeviceReader(Faults faults) {
    this.faults = faults;
  }

  private enum Line {
    SERIAL("serial"),
    NETWORK("network");

    private final String words;

    Line(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  DeviceSpec read(Named named) {
    Fields fields = new Fields(named.node(), named.name(), faults, KEYS);
    station = fields.count("station", 1, STATION_MAX);
    Line line = fields.word("line", Line.values(), Line::words);
    DeviceSpec.Link link = line == Line.SERIAL ? serial(fields) : network(fields);
    return new DeviceSpec(
        named.name(),
        fields.quantity("answer within", LineDeviceReader.ANSWER, "300 ms"),
        link,
        DevicesReader.inputs(fields, named.name(), faults, each -> input(each, named.name())),
        DevicesReader.outputs(fields, named.name(), faults, each -> output(each, named.name())));
  }

  private DeviceSpec.Link serial(Fields fields) {
    refuse(fields, "a serial line", "host", "tcp port", "beyond this machine");
    return new DeviceSpec.ModbusSerial(LineDeviceReader.serial(fields, DeviceSpec.Parity.EVEN));
  }

  private DeviceSpec.Link network(Fields fields) {
    refuse(fields, "a network line", "port", "baud", "parity", "stop bits");
    String host = fields.text("host", "127.0.0.1");
    int port = fields.has("tcp port") ? fields.count("tcp port", 1, 65_535) : 502;
    boolean here = host.equals("127.0.0.1") || host.equals("localhost") || host.equals("::1");
    if (!here && !host.isEmpty() && !fields.yesNoOr("beyond this machine", false)) {
      fields.fault(
          "host",
          fields.written("host"),
          "127.0.0.1, or 'beyond this machine: yes': Modbus TCP has no password, so such a line"
              + " must be a wire of its own");
    }
    return new DeviceSpec.ModbusNetwork(host, port);
  }

  private static void refuse(Fields fields, String line, String... keys) {
    for (String key : keys) {
      if (fields.has(key)) {
        fields.fault(key, "'" + key + "' for " + line, "it only for the other kind of line");
      }
    }
  }

  private int station(Fields fields) {
    return fields.has("station") ? fields.count("station", 1, STATION_MAX) : station;
  }

  private InputSpec input(Named named, String device) {
    List<String> keys =
        new ArrayList<>(List.of("table", "address", "type", "word order", "station"));
    keys.addAll(ScalingReader.DIGITAL);
    keys.add("every");
    Fields fields = DevicesReader.group(named, device, faults, keys);
    int before = faults.count();
    Table table = fields.word("table", Table.values(), Table::words);
    if (faults.count() != before) {
      // What else may stand here depends on the table.
      InRegister nowhere = new InRegister(1, table, 0, Kind.BIT, WordOrder.HIGH_FIRST);
      return new InputSpec(named.name(), nowhere, new Scaling.Contact(1), 1);
    }
    Kind kind = kind(fields, table);
    WordOrder order = WordOrder.HIGH_FIRST;
    if (kind.registers() == 2) {
      order = fields.word("word order", WordOrder.values(), WordOrder::words);
    } else if (fields.has("word order")) {
      fields.fault("word order", "'word order' for " + kind.words(), "it only for 32 bits");
    }
    return new InputSpec(
        named.name(),
        new InRegister(station(fields), table, fields.count("address", 0, 65_535), kind, order),
        ScalingReader.digital(fields),
        fields.quantity("every", LineDeviceReader.EVERY, "250 ms"));
  }

  private static Kind kind(Fields fields, Table table) {
    if (table.isOfBits()) {
      if (fields.has("type")) {
        fields.fault("type", "'type' for a " + table.words(), "no type: it is one bit");
      }
      if (!fields.has("closed is") && fields.has("table")) {
        fields.fault("table", "a " + table.words() + " without 'closed is'", "'closed is: 1' or 0");
      }
      return Kind.BIT;
    }
    Kind[] kinds = {Kind.INT16, Kind.UINT16, Kind.INT32, Kind.UINT32, Kind.FLOAT32};
    return fields.word("type", kinds, Kind::words);
  }

  private OutputSpec output(Named named, String device) {
    Fields fields =
        DevicesReader.group(
            named,
            device,
            faults,
            List.of(
                "table", "address", "station", "on", "off", "full duty", "verify", "at power-up"));
    PowerUp.refuseEnergised(fields, named.name() + " of " + device);
    Table[] writable = {Table.COIL, Table.HOLDING_REGISTER};
    Table table = fields.word("table", writable, Table::words);
    int address = fields.count("address", 0, 65_535);
    boolean verify = fields.yesNoOr("verify", true);
    if (fields.has("full duty")) {
      int full = fields.count("full duty", 1, 65_535);
      if (table == Table.COIL) {
        fields.fault("full duty", "a duty in a coil", "a holding register: a coil is on or off");
      }
      return new OutputSpec(
          named.name(), new OutputPlace.DutyRegister(station(fields), address, full, verify));
    }
    int on = 1;
    int off = 0;
    if (table == Table.HOLDING_REGISTER) {
      on = fields.count("on", 0, 65_535);
      off = fields.count("off", 0, 65_535);
      if (on == off && fields.has("on") && fields.has("off")) {
        fields.fault(
            "off", fields.written("off") + " for both on and off", "two different numbers");
      }
    } else {
      for (String key : List.of("on", "off")) {
        if (fields.has(key)) {
          fields.fault(key, "'" + key + "' for a coil", "none: a coil is on or off");
        }
      }
    }
    return new OutputSpec(
        named.name(), new OutputPlace.ToRegister(station(fields), table, address, on, off, verify));
  }
}
