package tarnish.controller.files;

import java.util.List;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Vessel;
import tarnish.shared.vessel.PressureRating;

/** Reads one of the two sets of limits of a rig and holds it against the vessel. */
final class LimitsReader {
  private static final List<String> KEYS =
      List.of("sample", "oven", "seal", "pressure", "ramp", "pulse");

  private final Faults faults;

  LimitsReader(Faults faults) {
    this.faults = faults;
  }

  /** Limits with their places. */
  record Read(Limits limits, Fields fields) {}

  Read read(Fields parent, String key, Vessel vessel) {
    String what = key + " limits";
    Fields fields =
        parent
            .node(key, "{sample: 550 °C, oven: 700 °C, ...}")
            .map(node -> new Fields(node, what, faults, KEYS))
            .orElseGet(() -> Fields.absent(what, parent.placeOf(key), faults));
    Limits limits =
        new Limits(
            fields.quantity("sample", Bound.TEMPERATURE),
            fields.quantity("oven", Bound.TEMPERATURE),
            fields.quantity("seal", Bound.TEMPERATURE),
            fields.quantity("pressure", Bound.PRESSURE),
            fields.quantity("ramp", Bound.RATE),
            fields.quantity("pulse", Bound.PRESSURE, "15 mbar"));
    double glassK = PressureRating.highestK(vessel.glass());
    if (limits.sampleMaxK() > glassK) {
      fields.fault(
          "sample",
          fields.written("sample"),
          "at most " + celsius(glassK) + ", which " + vessel.glass().words() + " bears");
    }
    if (limits.sealMaxK() > vessel.sealMaxK()) {
      fields.fault(
          "seal",
          fields.written("seal"),
          "at most " + celsius(vessel.sealMaxK()) + ", the rating of the seal");
    }
    return new Read(limits, fields);
  }

  /** Nobody there to help: no limit may be wider than with a person present. */
  static void unattendedIsNoLooser(Read attended, Read unattended) {
    Limits with = attended.limits();
    Limits without = unattended.limits();
    double[] wider = {
      without.sampleMaxK() - with.sampleMaxK(),
      without.ovenMaxK() - with.ovenMaxK(),
      without.sealMaxK() - with.sealMaxK(),
      without.pressureMaxPa() - with.pressureMaxPa(),
      without.rampMaxKPerS() - with.rampMaxKPerS(),
      without.pulseMaxPa() - with.pulseMaxPa()
    };
    for (int i = 0; i < wider.length; i++) {
      String key = KEYS.get(i);
      if (wider[i] > 0) {
        unattended
            .fields()
            .fault(
                key,
                unattended.fields().written(key) + " unattended",
                "at most " + attended.fields().written(key) + ", the attended limit");
      }
    }
  }

  private static String celsius(double k) {
    return Quantities.printShort(k, Unit.CELSIUS);
  }
}
