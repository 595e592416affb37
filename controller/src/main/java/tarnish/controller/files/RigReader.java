package tarnish.controller.files;

import java.util.List;
import java.util.Optional;
import tarnish.controller.devices.setup.DeviceSetup;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Defeat;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Heater.Actuator;
import tarnish.shared.rig.Regulation;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.RigDescription.Connection;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Vessel;
import tarnish.shared.rig.Vessel.Glass;

/** Reads rig files, strictly: everything wrong with one is told, and then nothing is run. */
public final class RigReader {
  private static final List<String> KEYS =
      List.of(
          "rig",
          "invented",
          "connection",
          "tick",
          "room pressure",
          "safe state",
          "vessel",
          "heater",
          "oxygen",
          "inert",
          "pump",
          "vent",
          "regulation",
          "limits",
          "sensors",
          "devices",
          "switches",
          "defeat",
          "balance",
          "proof tests");

  /** Stands in for a volume that could not be read, so that the rest can still be checked. */
  private static final double UNREAD_M3 = 1e-4;

  private final Faults faults;

  private RigReader(Faults faults) {
    this.faults = faults;
  }

  /**
   * Reads a rig description.
   *
   * @param fileName for messages only
   */
  public static ReadResult<RigDescription> read(String fileName, String text) {
    ReadResult<RigFile> file = readFile(fileName, text);
    return new ReadResult<>(file.found().map(RigFile::rig), file.faults());
  }

  /**
   * Reads a rig description with its devices.
   *
   * @param fileName for messages only
   */
  public static ReadResult<RigFile> readFile(String fileName, String text) {
    return FileText.check(fileName, text)
        .then(
            checked -> {
              Faults faults = new Faults(fileName);
              Optional<Node> root = NodeReader.read(checked, faults);
              return root.isPresent()
                  ? new RigReader(faults).read(root.get())
                  : ReadResult.faulty(faults.list());
            });
  }

  private ReadResult<RigFile> read(Node root) {
    Fields top = new Fields(root, "the rig", faults, KEYS);
    String name = top.text("rig", "Tube oven bench");
    boolean invented = top.yesNoOr("invented", false);
    Connection connection = top.word("connection", Connection.values(), Connection::words);
    double tickS = top.quantity("tick", Bound.TICK, "250 ms");
    double roomPa = top.quantity("room pressure", Bound.of(Unit.MILLIBAR, 500, 1100), "1013 mbar");
    Fields safe = group(top, "safe state", "{vent: closed}", "vent");
    boolean ventOpen = safe.word("vent", VentState.values(), VentState::words) == VentState.OPEN;
    Fields vesselFields =
        group(
            top,
            "vessel",
            "{name: quartz tube A, glass: fused quartz, ...}",
            "name",
            "glass",
            "bore",
            "wall",
            "hot volume",
            "cold volume",
            "seal");
    Vessel vessel = vessel(vesselFields);
    Heater heater = heater(top);
    GasSource oxygen = gas(top, "oxygen", "99.5 % ± 0.1 %");
    GasSource inert = gas(top, "inert", "10 ppm ± 5 ppm");
    Fields pump =
        group(
            top,
            "pump",
            "{speed: 0.3 L/s, ultimate pressure: 0.3 mbar}",
            "speed",
            "ultimate pressure");
    double speed = pump.quantity("speed", Bound.SPEED);
    double ultimatePa = pump.quantity("ultimate pressure", Bound.PRESSURE, "0.3 mbar");
    Fields vent = group(top, "vent", "{conductance: 0.02 dm³/(s·bar)}", "conductance");
    double ventConductance = vent.quantity("conductance", Bound.CONDUCTANCE);
    Regulation regulation = regulation(top, vessel);
    Fields limits =
        group(top, "limits", "{attended: {...}, unattended: {...}}", "attended", "unattended");
    LimitsReader limitsReader = new LimitsReader(faults);
    LimitsReader.Read attended = limitsReader.read(limits, "attended", vessel);
    LimitsReader.Read unattended = limitsReader.read(limits, "unattended", vessel);
    LimitsReader.unattendedIsNoLooser(attended, unattended);
    boolean real = connection == Connection.DEVICES;
    SensorReader sensorReader = new SensorReader(faults, real);
    List<SensorDescription> sensors =
        sensorReader.read(top.node("sensors", "a sensor by each channel"), attended.limits());
    RigDescription rig =
        new RigDescription(
            name,
            invented,
            connection,
            StrictMath.round(tickS * 1000),
            sensors,
            heater,
            oxygen,
            inert,
            speed,
            ultimatePa,
            ventConductance,
            roomPa,
            vessel,
            regulation,
            attended.limits(),
            unattended.limits(),
            ventOpen,
            top.optionalNode("defeat")
                .map(node -> DefeatReader.read(node, faults))
                .orElse(Defeat.NONE),
            balanceKg(top));
    RigRules.check(rig, top);
    Optional<DeviceSetup> setup = devices(top, rig, sensorReader, real);
    ProofRule proof =
        top.optionalNode("proof tests")
            .map(node -> ProofRuleReader.read(node, faults))
            .orElse(ProofRule.USUAL);
    return faults.result(() -> new RigFile(rig, setup, proof));
  }

  private double balanceKg(Fields top) {
    return top.optionalNode("balance")
        .map(node -> new Fields(node, "balance", faults, List.of("uncertainty")))
        .map(fields -> fields.quantity("uncertainty", Bound.BALANCE, "1 mg"))
        .orElse(RigDescription.USUAL_BALANCE_KG);
  }

  /** A simulated rig may name its devices too, so that one file serves both. */
  private Optional<DeviceSetup> devices(
      Fields top, RigDescription rig, SensorReader sensors, boolean real) {
    if (!real && !top.has("devices")) {
      for (Node source : sensors.sources().values()) {
        faults.add(source.place(), "a source without any 'devices'", "the devices, or no source");
      }
      if (top.has("switches")) {
        top.fault("switches", "switches without any 'devices'", "the devices, or no switches");
      }
      return Optional.empty();
    }
    Optional<Node> node = top.node("devices", "a device by its name");
    Optional<Node> switches = top.node("switches", "{heater: HEAT of board, ...}");
    DevicesReader reader = new DevicesReader(faults);
    return node.map(
        it -> {
          List<DeviceSpec> devices = reader.read(it);
          return new WiringReader(rig, devices, reader.isSound(), faults)
              .read(sensors.sources(), switches);
        });
  }

  /** How the vent stands in the safe state. */
  private enum VentState {
    OPEN("open"),
    CLOSED("closed");

    private final String words;

    VentState(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  private Fields group(Fields parent, String key, String example, String... keys) {
    return parent
        .node(key, example)
        .map(node -> new Fields(node, key, faults, List.of(keys)))
        .orElseGet(() -> Fields.absent(key, parent.placeOf(key), faults));
  }

  private Vessel vessel(Fields fields) {
    String name = fields.text("name", "quartz tube A");
    Glass glass = fields.word("glass", Glass.values(), Glass::words);
    double boreM = fields.quantity("bore", Bound.LENGTH);
    double wallM = fields.quantity("wall", Bound.LENGTH, "2 mm");
    Estimate hot = fields.estimate("hot volume", Bound.VOLUME, "250 mL ± 1.5 mL");
    Estimate cold = fields.estimate("cold volume", Bound.COLD_VOLUME, "80 mL ± 1 mL");
    Fields seal =
        group(
            fields, "seal", "{material: FKM elastomer, rated to: 200 °C}", "material", "rated to");
    TwoZoneVolume volume =
        new TwoZoneVolume(
            hot.value() > 0 ? hot.value() : UNREAD_M3, StrictMath.max(0, cold.value()));
    return new Vessel(
        name,
        glass,
        boreM,
        wallM,
        volume,
        hot.standardUncertainty(),
        cold.standardUncertainty(),
        seal.text("material", "FKM elastomer"),
        seal.quantity("rated to", Bound.TEMPERATURE, "200 °C"));
  }

  private Heater heater(Fields top) {
    Fields fields =
        group(
            top,
            "heater",
            "{actuator: relay, power: 800 W, ...}",
            "actuator",
            "power",
            "window",
            "minimum switch",
            "duty at most");
    Actuator actuator = fields.word("actuator", Actuator.values(), Actuator::words);
    double powerW = fields.quantity("power", Bound.POWER);
    double windowS = 0;
    double switchS = 0;
    if (actuator == Actuator.RELAY) {
      windowS = fields.quantity("window", Bound.of(Unit.SECOND, 0.1, 600), "2 s");
      switchS = fields.quantity("minimum switch", Bound.of(Unit.SECOND, 0, 60), "250 ms");
      if (switchS > windowS / 2) {
        fields.fault(
            "minimum switch",
            fields.written("minimum switch"),
            "at most half the window, " + fields.written("window"));
      }
    } else if (fields.has("window") || fields.has("minimum switch")) {
      String key = fields.has("window") ? "window" : "minimum switch";
      fields.fault(key, "'" + key + "' for an analogue actuator", "it only for a relay");
    }
    double dutyMax = fields.quantityOr("duty at most", Bound.SOME_FRACTION, 1);
    return new Heater(actuator, powerW, windowS, switchS, dutyMax);
  }

  private GasSource gas(Fields top, String key, String oxygenExample) {
    Fields fields =
        group(
            top,
            key,
            "{name: ..., oxygen: " + oxygenExample + ", ...}",
            "name",
            "oxygen",
            "supply pressure",
            "conductance",
            "critical ratio");
    Estimate oxygen = fields.estimate("oxygen", Bound.FRACTION, oxygenExample);
    return new GasSource(
        fields.text("name", key.equals("oxygen") ? "bottle" : "argon"),
        oxygen.value(),
        oxygen.standardUncertainty(),
        fields.quantity("supply pressure", Bound.SUPPLY, "1.5 bar"),
        fields.quantity("conductance", Bound.CONDUCTANCE),
        fields.quantity("critical ratio", Bound.SHARE, "0.3"));
  }

  private Regulation regulation(Fields top, Vessel vessel) {
    Fields fields =
        group(
            top,
            "regulation",
            "{controlled: sample temperature, gain: 0.02 /K, ...}",
            "controlled",
            "gain",
            "integral",
            "derivative",
            "setpoint weight",
            "oven lead at most",
            OvenModelReader.KEY);
    Channel[] choice = {Channel.SAMPLE_TEMPERATURE, Channel.OVEN_TEMPERATURE};
    return new Regulation(
        fields.word("controlled", choice, Channel::words),
        fields.quantity("gain", Bound.GAIN),
        fields.quantity("integral", Bound.SOME_TIME, "900 s"),
        fields.quantity("derivative", Bound.TIME, "60 s"),
        fields.quantity("setpoint weight", Bound.SHARE),
        fields.quantity("oven lead at most", Bound.DIFFERENCE, "80 K"),
        new OvenModelReader(faults).read(fields, vessel));
  }
}
