package tarnish.controller.files;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Channel.Kind;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.SensorElement;

/** Reads the sensors of a rig, each under the words of its channel. */
final class SensorReader {
  /** Without these nothing can be run safely. */
  private static final List<Channel> REQUIRED =
      List.of(
          Channel.SAMPLE_TEMPERATURE,
          Channel.OVEN_TEMPERATURE,
          Channel.VESSEL_PRESSURE,
          Channel.EMERGENCY_STOP);

  private static final List<String> CHANNEL_WORDS =
      Arrays.stream(Channel.values()).map(Channel::words).toList();

  private static final List<String> KEYS =
      List.of(
          "element",
          "range",
          "resolution",
          "uncertainty",
          "gain uncertainty",
          "noise",
          "lag",
          "source");

  private final Faults faults;
  private final boolean needSources;
  private final Map<Channel, Node> sources = new EnumMap<>(Channel.class);

  /**
   * @param needSources whether every sensor must say which input of which device it is
   */
  SensorReader(Faults faults, boolean needSources) {
    this.faults = faults;
    this.needSources = needSources;
  }

  /** What each sensor names as its source. */
  Map<Channel, Node> sources() {
    return sources;
  }

  private void source(Fields fields, Channel channel) {
    Optional<Node> source =
        needSources ? fields.node("source", "T1 of board") : fields.optionalNode("source");
    source.ifPresent(node -> sources.put(channel, node));
  }

  List<SensorDescription> read(Optional<Node> node, Limits limits) {
    List<SensorDescription> sensors = new ArrayList<>();
    if (node.isEmpty()) {
      return sensors;
    }
    // Fields refuses unknown channels and a channel fitted twice.
    Fields fields = new Fields(node.get(), "sensors", faults, CHANNEL_WORDS);
    Set<Channel> fitted = new HashSet<>();
    for (Channel channel : Channel.values()) {
      fields
          .optionalNode(channel.words())
          .ifPresent(
              sensor -> {
                fitted.add(channel);
                sensors.add(sensor(channel, sensor, limits));
              });
    }
    if (node.get() instanceof Node.Mapping) {
      for (Channel channel : REQUIRED) {
        if (!fitted.contains(channel)) {
          faults.add(
              node.get().place(),
              "no sensor '" + channel.words() + "'",
              "it: no rig runs without it");
        }
      }
    }
    return sensors;
  }

  private SensorDescription sensor(Channel channel, Node node, Limits limits) {
    if (channel.kind() == Kind.CONTACT) {
      Fields fields = new Fields(node, channel.words(), faults, List.of("element", "source"));
      source(fields, channel);
      SensorElement element = element(fields, channel);
      return new SensorDescription(channel, element, 1, 0, 1, 0, 0, 0, 0);
    }
    Fields fields = new Fields(node, channel.words(), faults, KEYS);
    source(fields, channel);
    Bounds bounds = Bounds.of(channel.kind());
    SensorElement element = element(fields, channel);
    Quantities.Range range = fields.range("range", bounds.range, bounds.example);
    SensorDescription sensor =
        new SensorDescription(
            channel,
            element,
            fields.quantity("resolution", bounds.resolution),
            range.from(),
            range.to(),
            fields.quantity("uncertainty", bounds.uncertainty),
            fields.quantityOr("gain uncertainty", Bound.of(Unit.PERCENT, 0, 20), 0),
            fields.quantityOr("noise", bounds.uncertainty, 0),
            fields.quantityOr("lag", Bound.of(Unit.SECOND, 0, 600), 0));
    seesItsLimit(fields, sensor, limits);
    return sensor;
  }

  private SensorElement element(Fields fields, Channel channel) {
    SensorElement[] fitting =
        Stream.of(SensorElement.values())
            .filter(element -> fits(element, channel.kind()))
            .toArray(SensorElement[]::new);
    return fields.word("element", fitting, SensorElement::words);
  }

  private static boolean fits(SensorElement element, Kind kind) {
    return switch (element) {
      case CONTACT -> kind == Kind.CONTACT;
      case CURRENT_LOOP, LINEAR -> kind != Kind.CONTACT;
      default -> kind == Kind.TEMPERATURE;
    };
  }

  /** A limit beyond the range of the sensor that watches it would never trip. */
  private static void seesItsLimit(Fields fields, SensorDescription sensor, Limits limits) {
    double limit =
        switch (sensor.channel()) {
          case SAMPLE_TEMPERATURE -> limits.sampleMaxK();
          case OVEN_TEMPERATURE, OVEN_TEMPERATURE_PAIR -> limits.ovenMaxK();
          case SEAL_TEMPERATURE -> limits.sealMaxK();
          case VESSEL_PRESSURE, VESSEL_PRESSURE_PAIR -> limits.pressureMaxPa();
          default -> Double.NaN;
        };
    if (sensor.rangeMax() <= limit) {
      Unit unit = sensor.channel().kind() == Kind.PRESSURE ? Unit.MILLIBAR : Unit.CELSIUS;
      fields.fault(
          "range",
          fields.written("range"),
          "a range beyond "
              + Quantities.printShort(limit, unit)
              + ", the attended limit that this sensor watches");
    }
  }

  /** What the values of one kind of channel may be. */
  private record Bounds(Bound range, String example, Bound resolution, Bound uncertainty) {
    static Bounds of(Kind kind) {
      return switch (kind) {
        case TEMPERATURE ->
            new Bounds(
                Bound.of(Unit.CELSIUS, -273.15, 2000),
                "0 °C to 1100 °C",
                Bound.of(Unit.KELVIN_DIFFERENCE, 0.0001, 10),
                Bound.UNCERTAINTY_K);
        case PRESSURE ->
            new Bounds(
                // A 4-20 mA gauge with its zero at 0 bar still shows down to 3.8 mA (NE 43).
                Bound.of(Unit.BAR, -1, 300),
                "0 bar to 2 bar",
                Bound.of(Unit.PASCAL, 0.001, 100_000),
                Bound.of(Unit.PASCAL, 0, 1_000_000));
        case FRACTION, CONTACT ->
            new Bounds(
                Bound.FRACTION,
                "0 % to 25 %",
                Bound.of(Unit.PERCENT, 0.0001, 10),
                Bound.of(Unit.PERCENT, 0, 50));
      };
    }
  }
}
