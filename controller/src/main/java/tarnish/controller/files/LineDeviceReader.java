package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.ReplyPattern;
import tarnish.controller.files.DevicesReader.Named;
import tarnish.shared.quantity.Unit;

/** Reads an instrument that answers in lines of text. */
final class LineDeviceReader {
  static final Bound ANSWER = Bound.of(Unit.MILLISECOND, 10, 2_000);
  static final Bound EVERY = Bound.of(Unit.MILLISECOND, 20, 60_000);

  private static final List<String> KEYS =
      List.of(
          "kind",
          "port",
          "baud",
          "parity",
          "stop bits",
          "line end",
          "answer within",
          "inputs",
          "outputs");

  private final Faults faults;

  LineDeviceReader(Faults faults) {
    this.faults = faults;
  }

  DeviceSpec read(Named named) {
    Fields fields = new Fields(named.node(), named.name(), faults, KEYS);
    DeviceSpec.LineEnd end =
        fields.has("line end")
            ? fields.word("line end", DeviceSpec.LineEnd.values(), DeviceSpec.LineEnd::words)
            : DeviceSpec.LineEnd.LF;
    return new DeviceSpec(
        named.name(),
        fields.quantity("answer within", ANSWER, "200 ms"),
        new DeviceSpec.Lines(serial(fields, DeviceSpec.Parity.NONE), end),
        DevicesReader.inputs(fields, named.name(), faults, each -> input(each, named.name())),
        DevicesReader.outputs(fields, named.name(), faults, each -> output(each, named.name())));
  }

  static DeviceSpec.SerialLine serial(Fields fields, DeviceSpec.Parity usual) {
    String port = fields.text("port", "/dev/ttyUSB0");
    if (!port.isEmpty() && !port.startsWith("/")) {
      fields.fault("port", fields.written("port"), "the path of a serial port, e.g. /dev/ttyUSB0");
    }
    int baud = fields.count("baud", 300, 1_000_000);
    DeviceSpec.Parity parity =
        fields.has("parity")
            ? fields.word("parity", DeviceSpec.Parity.values(), DeviceSpec.Parity::words)
            : usual;
    int stopBits = fields.has("stop bits") ? fields.count("stop bits", 1, 2) : 1;
    return new DeviceSpec.SerialLine(port, baud, parity, stopBits);
  }

  private InputSpec input(Named named, String device) {
    List<String> keys = new ArrayList<>(List.of("ask", "answer"));
    keys.addAll(ScalingReader.DIGITAL);
    keys.add("every");
    Fields fields = DevicesReader.group(named, device, faults, keys);
    String ask = fields.text("ask", "'T1?'");
    ReplyPattern answer = pattern(fields, "'T1={value}'").orElse(new ReplyPattern("{value}"));
    if (!answer.hasValue()) {
      fields.fault(
          "answer", fields.written("answer"), "an answer with {value} where the number stands");
    }
    return new InputSpec(
        named.name(),
        new InputPlace.Question(ask, answer),
        ScalingReader.digital(fields),
        fields.quantity("every", EVERY, "250 ms"));
  }

  private OutputSpec output(Named named, String device) {
    Fields fields =
        DevicesReader.group(
            named,
            device,
            faults,
            List.of("on", "off", "order", "full duty", "answer", "at power-up"));
    PowerUp.refuseEnergised(fields, named.name() + " of " + device);
    if (fields.has("order")) {
      for (String key : List.of("on", "off")) {
        if (fields.has(key)) {
          fields.fault(key, "'" + key + "' beside 'order'", "either 'on' and 'off', or 'order'");
        }
      }
      String order = fields.text("order", "'DUTY {value}'");
      if (!order.isEmpty() && !order.contains("{value}")) {
        fields.fault("order", fields.written("order"), "an order with {value} where the duty goes");
      }
      double full = fields.quantity("full duty", Bound.of(Unit.ONE, 0.001, 65_535));
      return new OutputSpec(
          named.name(), new OutputPlace.DutyOrder(order, full, confirmation(fields)));
    }
    String on = fields.text("on", "'H=1'");
    String off = fields.text("off", "'H=0'");
    if (!on.isEmpty() && on.equals(off)) {
      fields.fault("off", fields.written("off") + " for both on and off", "two different orders");
    }
    return new OutputSpec(named.name(), new OutputPlace.Order(on, off, confirmation(fields)));
  }

  /** An order that nothing confirms could be lost without anybody knowing. */
  private Optional<ReplyPattern> confirmation(Fields fields) {
    return pattern(fields, "OK");
  }

  private Optional<ReplyPattern> pattern(Fields fields, String example) {
    String text = fields.text("answer", example);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(new ReplyPattern(text));
    } catch (IllegalArgumentException wrong) {
      fields.fault(
          "answer",
          wrong.getMessage() + " in " + fields.written("answer"),
          "plain text with {value} once at most and {any} where anything may stand");
      return Optional.empty();
    }
  }
}
