package tarnish.controller.files;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.Vessel;

/** Reads the identified model of an oven from the regulation of a rig file. */
final class OvenModelReader {
  static final String KEY = "oven model";

  private static final Bound HEATING = Bound.of(Unit.KELVIN_PER_SECOND, 0.001, 50);
  private static final Bound LAG = Bound.of(Unit.SECOND, 0.1, 1_000_000);
  private static final Bound DEAD_TIME = Bound.of(Unit.SECOND, 0, 600);

  private final Faults faults;

  OvenModelReader(Faults faults) {
    this.faults = faults;
  }

  /** The model, empty where there is none or it is faulty. */
  Optional<IdentifiedOven> read(Fields regulation, Vessel vessel) {
    Optional<Node> node = regulation.optionalNode(KEY);
    if (node.isEmpty()) {
      return Optional.empty();
    }
    Fields fields = new Fields(node.get(), KEY, faults, OvenModelKeys.ALL);
    String with = fields.text(OvenModelKeys.VESSEL, vessel.name());
    if (!with.isEmpty() && !with.equals(vessel.name())) {
      fields.fault(
          OvenModelKeys.VESSEL,
          "a model of the oven with '" + with + "'",
          "one identified with this rig's vessel, '" + vessel.name() + "': run identify again");
    }
    Optional<LocalDate> date = date(fields);
    double residualK = fields.quantity(OvenModelKeys.RESIDUAL, Bound.UNCERTAINTY_K, "0.4 K");
    List<Estimate> values = new ArrayList<>();
    for (OvenModelKeys.Parameter parameter : OvenModelKeys.PARAMETERS) {
      values.add(fields.estimate(parameter.key(), bound(parameter), parameter.example()));
    }
    double[] p = values.stream().mapToDouble(Estimate::value).toArray();
    double[] u = values.stream().mapToDouble(Estimate::standardUncertainty).toArray();
    boolean usable = date.isPresent() && residualK >= 0;
    for (int i = 0; i < p.length; i++) {
      usable &= bound(OvenModelKeys.PARAMETERS.get(i)).allows(p[i]);
    }
    if (!usable) {
      return Optional.empty();
    }
    OvenModel model =
        new OvenModel(p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8], p[9], p[10]);
    return Optional.of(new IdentifiedOven(model, u, with, date.get(), residualK));
  }

  private static Bound bound(OvenModelKeys.Parameter parameter) {
    return switch (parameter.kind()) {
      case RATE -> HEATING;
      case LAG -> LAG;
      case DEAD_TIME -> DEAD_TIME;
      case SHARE -> Bound.FRACTION;
    };
  }

  private static Optional<LocalDate> date(Fields fields) {
    String text = fields.text(OvenModelKeys.IDENTIFIED, "2026-11-25");
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(text));
    } catch (DateTimeParseException e) {
      fields.fault(
          OvenModelKeys.IDENTIFIED,
          fields.written(OvenModelKeys.IDENTIFIED),
          "a day, year first, e.g. 2026-11-25");
      return Optional.empty();
    }
  }
}
