package tarnish.controller.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.DeviceSpec.ChipKind;
import tarnish.controller.devices.setup.DeviceSpec.ChipSettings;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Scaling;
import tarnish.controller.files.DevicesReader.Named;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.SensorElement;

/** Reads what hangs on the board itself: its pins, and chips on SPI and I2C. */
final class BoardDeviceReader {
  /** A bus transfer takes well under 1 ms; what takes longer has failed. Common practice. */
  private static final double BUS_ANSWER_S = 0.1;

  private static final Pattern I2C_ADDRESS = Pattern.compile("0x[0-7][0-9A-Fa-f]");
  private static final int PIN_MAX = 255;

  private final Faults faults;

  BoardDeviceReader(Faults faults) {
    this.faults = faults;
  }

  private enum Level {
    HIGH("high"),
    LOW("low");

    private final String words;

    Level(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  DeviceSpec pins(Named named) {
    Fields fields =
        new Fields(named.node(), named.name(), faults, List.of("kind", "inputs", "outputs"));
    DeviceSpec device =
        new DeviceSpec(
            named.name(),
            BUS_ANSWER_S,
            new DeviceSpec.Pins(),
            DevicesReader.inputs(fields, named.name(), faults, each -> pinIn(each, named.name())),
            DevicesReader.outputs(
                fields, named.name(), faults, each -> pinOut(each, named.name())));
    onePurposeEach(named, device);
    return device;
  }

  private InputSpec pinIn(Named named, String device) {
    Fields fields =
        DevicesReader.group(named, device, faults, List.of("pin", "closed is", "pull", "every"));
    int pin = fields.count("pin", 0, PIN_MAX);
    Level closed = fields.word("closed is", Level.values(), Level::words);
    InputPlace.Pull pull = fields.word("pull", InputPlace.Pull.values(), InputPlace.Pull::words);
    boolean falselyClosed =
        closed == Level.HIGH && pull == InputPlace.Pull.UP
            || closed == Level.LOW && pull == InputPlace.Pull.DOWN;
    if (falselyClosed) {
      fields.fault(
          "pull",
          "a broken wire that reads closed (closed is "
              + closed.words()
              + ", pulled "
              + pull.words()
              + ")",
          "the pull to the other side, so that a broken wire reads open");
    }
    return new InputSpec(
        named.name(),
        new InputPlace.Pin(pin, pull),
        new Scaling.Contact(closed == Level.HIGH ? 1 : 0),
        fields.quantity("every", LineDeviceReader.EVERY, "50 ms"));
  }

  private OutputSpec pinOut(Named named, String device) {
    Fields fields = DevicesReader.group(named, device, faults, List.of("pin", "on is", "rests"));
    int pin = fields.count("pin", 0, PIN_MAX);
    Level on = fields.word("on is", Level.values(), Level::words);
    Level rests = fields.word("rests", Level.values(), Level::words);
    // A booting board drives no pin: the resistor on the wire decides what the load sees.
    if (fields.has("on is") && fields.has("rests") && on == rests) {
      PowerUp.refuse(fields, "rests", named.name() + " of " + device);
    }
    return new OutputSpec(named.name(), new OutputPlace.Pin(pin, on == Level.HIGH));
  }

  private void onePurposeEach(Named named, DeviceSpec device) {
    Map<Integer, String> taken = new HashMap<>();
    for (InputSpec input : device.inputs()) {
      onePurpose(named, taken, ((InputPlace.Pin) input.where()).number(), input.name());
    }
    for (OutputSpec output : device.outputs()) {
      onePurpose(named, taken, ((OutputPlace.Pin) output.where()).number(), output.name());
    }
  }

  private void onePurpose(Named named, Map<Integer, String> taken, int pin, String name) {
    String other = taken.putIfAbsent(pin, name);
    if (other != null && faults.isEmpty()) {
      faults.add(
          named.place(),
          "pin " + pin + " for both " + other + " and " + name + " of " + named.name(),
          "one purpose for each pin");
    }
  }

  DeviceSpec frontEnd(Named named, ChipKind kind) {
    List<String> keys = new ArrayList<>(List.of("kind", "bus", "select"));
    if (kind == ChipKind.MAX31865) {
      keys.addAll(List.of("element", "wires", "reference"));
    } else {
      keys.add("thermocouple");
    }
    if (kind != ChipKind.MAX31855) {
      keys.add("mains");
    }
    keys.add("every");
    Fields fields = new Fields(named.node(), named.name(), faults, keys);
    ChipSettings settings =
        kind == ChipKind.MAX31865 ? platinum(fields) : thermocouple(fields, kind);
    double everyS = fields.quantity("every", LineDeviceReader.EVERY, "250 ms");
    return new DeviceSpec(
        named.name(),
        BUS_ANSWER_S,
        spi(fields, kind, settings),
        DeviceSpec.chipInputs(kind != ChipKind.MAX31865, everyS),
        List.of());
  }

  private static ChipSettings thermocouple(Fields fields, ChipKind kind) {
    // MAX31855 is made for one type each, and for none of type B.
    String types = kind == ChipKind.MAX31855 ? "EJKNRST" : "BEJKNRST";
    String[] letters = types.split("");
    String letter = fields.word("thermocouple", letters, it -> it);
    return new ChipSettings(
        Optional.of(SensorElement.valueOf("THERMOCOUPLE_" + letter)), mains60Hz(fields), 0, false);
  }

  private static ChipSettings platinum(Fields fields) {
    SensorElement[] elements = {SensorElement.PT100, SensorElement.PT1000};
    SensorElement element = fields.word("element", elements, SensorElement::words);
    int wires = fields.count("wires", 2, 4);
    double ohm = fields.quantity("reference", Bound.of(Unit.OHM, 100, 10_000), "400 Ω");
    return new ChipSettings(Optional.of(element), mains60Hz(fields), ohm, wires == 3);
  }

  private static boolean mains60Hz(Fields fields) {
    String[] words = {"50 Hz", "60 Hz"};
    return fields.has("mains") && fields.word("mains", words, it -> it).equals("60 Hz");
  }

  private static DeviceSpec.SpiChip spi(Fields fields, ChipKind kind, ChipSettings settings) {
    return new DeviceSpec.SpiChip(
        kind, fields.count("bus", 0, 6), fields.count("select", 0, 2), settings);
  }

  DeviceSpec mcp3208(Named named) {
    Fields fields =
        new Fields(
            named.node(),
            named.name(),
            faults,
            List.of("kind", "bus", "select", "reference voltage", "inputs"));
    double referenceV =
        fields.quantity("reference voltage", Bound.of(Unit.VOLT, 0.25, 5.5), "3.3 V");
    return new DeviceSpec(
        named.name(),
        BUS_ANSWER_S,
        spi(fields, ChipKind.MCP3208, ChipSettings.CONVERTER),
        DevicesReader.inputs(
            fields, named.name(), faults, each -> analogue(each, named.name(), 7, referenceV)),
        List.of());
  }

  DeviceSpec ads1115(Named named) {
    Fields fields =
        new Fields(named.node(), named.name(), faults, List.of("kind", "bus", "address", "inputs"));
    String written = fields.text("address", "0x48");
    int address = I2C_ADDRESS.matcher(written).matches() ? Integer.decode(written) : 0;
    if (!written.isEmpty() && !(address >= 0x48 && address <= 0x4B)) {
      fields.fault("address", fields.written("address"), "0x48, 0x49, 0x4A or 0x4B");
    }
    return new DeviceSpec(
        named.name(),
        BUS_ANSWER_S,
        new DeviceSpec.I2cChip(fields.count("bus", 0, 20), address),
        DevicesReader.inputs(
            fields, named.name(), faults, each -> analogue(each, named.name(), 3, 0)),
        List.of());
  }

  /** Full-scale ranges of the ADS1115, from its data sheet. */
  private static final String[] FULL_SCALES = {
    "6.144 V", "4.096 V", "2.048 V", "1.024 V", "0.512 V", "0.256 V"
  };

  private InputSpec analogue(Named named, String device, int last, double referenceV) {
    List<String> keys = new ArrayList<>(List.of("input"));
    if (referenceV == 0) {
      keys.add("full scale");
    }
    keys.addAll(ScalingReader.ANALOGUE);
    keys.add("every");
    Fields fields = DevicesReader.group(named, device, faults, keys);
    double fullScaleV = referenceV;
    if (referenceV == 0) {
      String word = fields.word("full scale", FULL_SCALES, it -> it);
      fullScaleV = Double.parseDouble(word.replace(" V", ""));
    }
    return new InputSpec(
        named.name(),
        new InputPlace.Analogue(fields.count("input", 0, last), fullScaleV),
        ScalingReader.analogue(fields),
        fields.quantity("every", LineDeviceReader.EVERY, "100 ms"));
  }
}
