package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.quantity.Unit;

/** The words of an oven model in a rig file, in the order of the model's parameters. */
final class OvenModelKeys {
  static final String VESSEL = "vessel";
  static final String IDENTIFIED = "identified";
  static final String RESIDUAL = "residual";

  /** What kind of number a parameter is. */
  enum Kind {
    RATE(Unit.KELVIN_PER_SECOND),
    LAG(Unit.SECOND),
    DEAD_TIME(Unit.SECOND),
    SHARE(Unit.PERCENT);

    private final Unit unit;

    Kind(Unit unit) {
      this.unit = unit;
    }

    Unit unit() {
      return unit;
    }
  }

  /** One parameter. */
  record Parameter(String key, Kind kind, String example) {}

  static final List<Parameter> PARAMETERS =
      List.of(
          new Parameter("heating", Kind.RATE, "0.7 K/s ± 0.01 K/s"),
          new Parameter("element lag", Kind.LAG, "25 s ± 1 s"),
          new Parameter("dead time", Kind.DEAD_TIME, "4 s ± 1 s"),
          new Parameter("loss lag", Kind.LAG, "1700 s ± 10 s"),
          new Parameter("loss by radiation", Kind.SHARE, "1 % ± 1 %"),
          new Parameter("vessel lag", Kind.LAG, "120 s ± 2 s"),
          new Parameter("vessel by radiation", Kind.SHARE, "73 % ± 2 %"),
          new Parameter("sample lag", Kind.LAG, "65 s ± 2 s"),
          new Parameter("sample by radiation", Kind.SHARE, "63 % ± 3 %"),
          new Parameter("neck lag", Kind.LAG, "6700 s ± 100 s"),
          new Parameter("vessel load", Kind.SHARE, "7 % ± 1 %"));

  static final List<String> ALL = all();

  private OvenModelKeys() {}

  private static List<String> all() {
    List<String> keys = new ArrayList<>(List.of(VESSEL, IDENTIFIED, RESIDUAL));
    PARAMETERS.forEach(parameter -> keys.add(parameter.key()));
    return List.copyOf(keys);
  }
}
