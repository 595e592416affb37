package tarnish.controller.files;

import java.util.List;
import java.util.Optional;
import tarnish.controller.devices.setup.Scaling;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.sensors.CurrentLoop;
import tarnish.shared.sensors.LinearScale;

/** Reads how the number of a device becomes a reading. */
final class ScalingReader {
  /** Keys of a digital instrument's input. */
  static final List<String> DIGITAL =
      List.of("unit", "scale", "offset", "signal", "means", "closed is");

  /** Keys of a converter's input. */
  static final List<String> ANALOGUE = List.of("shunt", "signal", "means");

  private static final List<Unit> UNITS =
      List.of(
          Unit.CELSIUS,
          Unit.KELVIN,
          Unit.PASCAL,
          Unit.HECTOPASCAL,
          Unit.KILOPASCAL,
          Unit.MILLIBAR,
          Unit.BAR,
          Unit.TORR,
          Unit.PERCENT,
          Unit.PARTS_PER_MILLION,
          Unit.GRAM,
          Unit.MILLIGRAM,
          Unit.MILLIAMPERE,
          Unit.AMPERE,
          Unit.VOLT,
          Unit.MILLIVOLT);

  private static final List<Dimension> MEANT =
      List.of(Dimension.PRESSURE, Dimension.TEMPERATURE, Dimension.FRACTION);

  private static final Bound SCALE = Bound.of(Unit.ONE, -1e9, 1e9);
  private static final String LOOP = "4 mA to 20 mA";

  /** What is passed on after a fault; nobody ever uses it. */
  private static final Scaling UNREAD = new Scaling.Contact(1);

  private ScalingReader() {}

  /** A number with a unit, a signal with its meaning, or a contact. */
  static Scaling digital(Fields fields) {
    if (fields.has("closed is")) {
      for (String other : DIGITAL) {
        if (fields.has(other) && !other.equals("closed is")) {
          fields.fault(other, "'" + other + "' for a contact", "'closed is' alone");
        }
      }
      return new Scaling.Contact(fields.count("closed is", 0, 1));
    }
    double scale = fields.quantityOr("scale", SCALE, 1);
    if (scale == 0) {
      fields.fault("scale", fields.written("scale"), "a number other than 0");
    }
    double offset = fields.quantityOr("offset", SCALE, 0);
    Unit unit =
        fields.has("unit") || !fields.has("signal")
            ? fields.word("unit", UNITS.toArray(Unit[]::new), Unit::symbol)
            : Unit.MILLIAMPERE;
    boolean electrical =
        unit.dimension() == Dimension.CURRENT || unit.dimension() == Dimension.VOLTAGE;
    if (!electrical) {
      for (String key : List.of("signal", "means")) {
        if (fields.has(key)) {
          fields.fault(
              key, "'" + key + "' for a value in " + unit.symbol(), "it only for one in mA or V");
        }
      }
      return new Scaling.InUnit(scale, offset, unit);
    }
    if (offset != 0) {
      fields.fault(
          "offset", fields.written("offset") + " for a signal", "no offset: 'means' says it");
    }
    return signal(fields, scale * unit.toSi(1), unit.dimension());
  }

  /** A converter that measures in V; over a shunt it measures a current. */
  static Scaling analogue(Fields fields) {
    if (!fields.has("shunt")) {
      return signal(fields, 1, Dimension.VOLTAGE);
    }
    double shuntOhm = fields.quantity("shunt", Bound.of(Unit.OHM, 1, 1_000), "150 Ω");
    return signal(fields, 1 / shuntOhm, Dimension.CURRENT);
  }

  private static Scaling signal(Fields fields, double scale, Dimension dimension) {
    boolean loop = dimension == Dimension.CURRENT;
    Bound bound = loop ? Bound.of(Unit.MILLIAMPERE, 0, 25) : Bound.of(Unit.VOLT, -10, 10);
    String example = loop ? LOOP : "0.5 V to 4.5 V";
    Quantities.Range signal = fields.range("signal", bound, example);
    if (loop && Math.abs(signal.from() - 0.004) + Math.abs(signal.to() - 0.020) > 1e-9) {
      fields.fault("signal", fields.written("signal"), LOOP + ", whose failures NE 43 tells apart");
    }
    Optional<Meaning> meaning = meaning(fields);
    if (meaning.isEmpty() || Double.isNaN(signal.from()) || Double.isNaN(scale)) {
      return UNREAD;
    }
    Quantities.Range range = meaning.get().range();
    Dimension of = meaning.get().dimension();
    return loop
        ? new Scaling.Loop(scale, new CurrentLoop(range.from(), range.to()), of)
        : new Scaling.Straight(
            scale, new LinearScale(signal.from(), range.from(), signal.to(), range.to()), of);
  }

  private record Meaning(Quantities.Range range, Dimension dimension) {}

  private static Optional<Meaning> meaning(Fields fields) {
    String text = fields.text("means", "0 bar to 2 bar");
    if (text.isEmpty()) {
      return Optional.empty();
    }
    for (Dimension dimension : MEANT) {
      try {
        return Optional.of(new Meaning(Quantities.parseRange(text, dimension), dimension));
      } catch (NotAQuantity notThis) {
        // Another dimension is tried; if none fits, the fault below says so.
      }
    }
    fields.fault(
        "means",
        fields.written("means"),
        "pressures, temperatures or fractions with 'to', the lower one first, e.g. 0 bar to 2 bar");
    return Optional.empty();
  }
}
