package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;

/** Writes an oven model into the text of a rig file, which keeps everything else as it is. */
public final class OvenModelText {
  private static final String INDENT = "  ";

  private OvenModelText() {}

  /** The lines of a model as they stand under {@code regulation}. */
  public static List<String> lines(IdentifiedOven oven) {
    OvenModel m = oven.model();
    double[] values = {
      m.heatingKPerS(),
      m.elementS(),
      m.deadTimeS(),
      m.lossS(),
      m.lossRadiation(),
      m.vesselS(),
      m.vesselRadiation(),
      m.sampleS(),
      m.sampleRadiation(),
      m.neckS(),
      m.vesselLoad()
    };
    double[] uncertainty = oven.standardUncertainty();
    List<String> lines = new ArrayList<>();
    lines.add(INDENT + OvenModelReader.KEY + ":     # lags and shares hold at 600 K");
    add(lines, OvenModelKeys.VESSEL, oven.vesselName());
    add(lines, OvenModelKeys.IDENTIFIED, oven.identified().toString());
    add(lines, OvenModelKeys.RESIDUAL, Quantities.print(oven.residualK(), Unit.KELVIN, 2));
    for (int i = 0; i < values.length; i++) {
      OvenModelKeys.Parameter parameter = OvenModelKeys.PARAMETERS.get(i);
      Unit unit = parameter.kind().unit();
      add(lines, parameter.key(), number(values[i], unit) + " ± " + number(uncertainty[i], unit));
    }
    return lines;
  }

  private static void add(List<String> lines, String key, String value) {
    lines.add(INDENT + INDENT + key + ": " + value);
  }

  /** Five significant digits: more than any fit knows. */
  private static String number(double valueSi, Unit unit) {
    double shown = unit.of(valueSi);
    int decimals =
        shown == 0
            ? 0
            : (int)
                StrictMath.max(0, 4 - StrictMath.floor(StrictMath.log10(StrictMath.abs(shown))));
    return Quantities.print(valueSi, unit, StrictMath.min(9, decimals));
  }

  /**
   * The rig file with the model in it, in place of the one it had.
   *
   * @return empty if the file's regulation is not written as an indented block
   */
  public static Optional<String> into(String rigText, IdentifiedOven oven) {
    List<String> out = new ArrayList<>();
    boolean placed = false;
    boolean skipping = false;
    boolean inRegulation = false;
    for (String line : rigText.split("\n", -1)) {
      boolean top = !line.isBlank() && !line.startsWith(" ") && !line.startsWith("#");
      if (top) {
        inRegulation = line.stripTrailing().equals("regulation:");
      }
      boolean deeper = line.startsWith(INDENT + INDENT);
      skipping = skipping && deeper;
      if (inRegulation && line.startsWith(INDENT + OvenModelReader.KEY + ":")) {
        skipping = true;
      }
      if (!skipping) {
        out.add(line);
      }
      if (top && inRegulation && !placed) {
        out.addAll(lines(oven));
        placed = true;
      }
    }
    return placed ? Optional.of(String.join("\n", out)) : Optional.empty();
  }
}
