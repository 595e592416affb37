package tarnish.shared.magnetism;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.FormulaException;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;

/**
 * The worksheet of a magnetic weighing as people fill it in: texts with units go in, sentences with
 * their uncertainty come out. The reference is HgCo(NCS)₄.
 */
public final class MagneticSheet {
  /**
   * One line to fill in.
   *
   * @param key as a file or request names it
   * @param label for the person
   * @param example of what to write
   * @param optional whether it may stay empty
   */
  public record Field(String key, String label, String example, boolean optional) {}

  /** One line of the result. */
  public record Line(String what, String value) {}

  /** Volume susceptibility of air (SI) at room conditions; argon and nitrogen are near 0. */
  private static final double AIR = 3.8e-7;

  private static final List<Field> FIELDS =
      List.of(
          mass("holder without", "Empty holder, magnet away", "12.3456 g ± 0.1 mg"),
          mass("holder with", "Empty holder, with the magnet", "12.3454 g ± 0.1 mg"),
          mass("reference without", "Holder with reference, magnet away", "12.8456 g ± 0.1 mg"),
          mass("reference with", "Holder with reference, with the magnet", "12.8955 g ± 0.1 mg"),
          mass("reference mass", "Mass of the reference, HgCo(NCS)4", "0.5000 g ± 0.2 mg"),
          mass("sample without", "Holder with sample, magnet away", "12.8460 g ± 0.1 mg"),
          mass("sample with", "Holder with sample, with the magnet", "12.8468 g ± 0.1 mg"),
          mass("sample mass", "Mass of the sample", "0.5004 g ± 0.2 mg"),
          new Field("temperature", "Temperature at the magnet", "22 °C ± 0.5 K", false),
          new Field("formula", "Formula with one magnetic centre", "CuO", false),
          new Field("ions", "Its ions, for the diamagnetic part", "Cu2+, O2-", true),
          new Field("filled volume", "Volume of a filling", "0.25 mL", true),
          new Field("gas", "Gas around it: air or inert", "air", true));

  private final Map<String, String> texts;

  private MagneticSheet(Map<String, String> texts) {
    this.texts = texts;
  }

  private static Field mass(String key, String label, String example) {
    return new Field(key, label, example, false);
  }

  public static List<Field> fields() {
    return FIELDS;
  }

  /**
   * The result.
   *
   * @throws IllegalArgumentException with a sentence for the person
   */
  public static List<Line> evaluate(Map<String, String> texts) {
    return new MagneticSheet(texts).lines();
  }

  private List<Line> lines() {
    MagneticWeighing weighing =
        new MagneticWeighing(
            filling("sample"),
            filling("reference"),
            new MagneticWeighing.Reading(grams("holder without"), grams("holder with")),
            ReferenceSubstance.MERCURY_COBALT_THIOCYANATE,
            volume(),
            gas(),
            estimate("temperature", Dimension.TEMPERATURE));
    MagneticResult result = weighing.evaluate(formula(), DiamagneticIncrements.sum(ions()));
    List<Line> lines = new ArrayList<>();
    lines.add(
        new Line("Mass susceptibility", number(result.massM3PerKg(), 1e8, "× 10⁻⁸ m³/kg (SI)")));
    lines.add(
        new Line(
            "the same in cgs",
            number(Susceptibility.massCgsMillionths(result.massM3PerKg()), 1, "× 10⁻⁶ cm³/g")));
    lines.add(
        new Line(
            "Molar susceptibility",
            number(
                Susceptibility.molarCgsMillionths(result.molarM3PerMol()), 1, "× 10⁻⁶ cm³/mol")));
    lines.add(
        new Line(
            "Diamagnetic part",
            number(
                Susceptibility.molarCgsMillionths(result.diamagneticM3PerMol()),
                1,
                "× 10⁻⁶ cm³/mol")));
    lines.add(
        new Line(
            "Paramagnetic part",
            number(
                Susceptibility.molarCgsMillionths(result.paramagneticM3PerMol()),
                1,
                "× 10⁻⁶ cm³/mol")));
    Optional<Estimate> moment = result.moment();
    lines.add(
        new Line(
            "Effective moment",
            moment
                .map(m -> number(m, 1, "Bohr magnetons"))
                .orElse("none: no paramagnetism stands out of the uncertainty")));
    result.nearestSpinOnly().ifPresent(near -> lines.add(new Line("Spin only", spinOnly(near))));
    return lines;
  }

  private static String spinOnly(MagneticResult.SpinOnly near) {
    double away = StrictMath.abs(near.standardUncertaintiesAway());
    String agrees =
        away <= 2
            ? "agrees"
            : away <= 3
                ? "agrees only just"
                : "does not agree: an orbital part, coupled centres or a mixture";
    return String.format(
        Locale.ROOT,
        "%d unpaired: %.2f; the measured moment lies %.1f standard uncertainties %s it and %s",
        near.electrons(),
        near.moment(),
        away,
        near.standardUncertaintiesAway() < 0 ? "below" : "above",
        agrees);
  }

  private static String number(Estimate estimate, double scale, String unit) {
    Estimate scaled = estimate.times(scale);
    return Quantities.printEstimate(scaled, tarnish.shared.quantity.Unit.ONE) + " " + unit;
  }

  private MagneticWeighing.Filling filling(String which) {
    return new MagneticWeighing.Filling(
        new MagneticWeighing.Reading(grams(which + " without"), grams(which + " with")),
        grams(which + " mass"));
  }

  private Estimate grams(String key) {
    return estimate(key, Dimension.MASS);
  }

  private Estimate estimate(String key, Dimension dimension) {
    try {
      return Quantities.parseEstimate(text(key), dimension);
    } catch (NotAQuantity wrong) {
      throw refusal(key, "found " + wrong.found() + ", expected " + wrong.expected());
    }
  }

  private double volume() {
    if (text("filled volume").isEmpty()) {
      return 0;
    }
    try {
      return Quantities.parse(text("filled volume"), Dimension.VOLUME);
    } catch (NotAQuantity wrong) {
      throw refusal("filled volume", "found " + wrong.found() + ", expected " + wrong.expected());
    }
  }

  private double gas() {
    return switch (text("gas")) {
      case "", "air" -> AIR;
      case "inert" -> 0;
      default -> throw refusal("gas", "found '" + text("gas") + "', expected air or inert");
    };
  }

  private Estimate formula() {
    try {
      return Formula.parse(text("formula")).molarMassKgPerMol();
    } catch (FormulaException wrong) {
      throw refusal("formula", wrong.getMessage());
    }
  }

  private Map<String, Integer> ions() {
    Map<String, Integer> ions = new LinkedHashMap<>();
    for (String ion : text("ions").split(",")) {
      if (!ion.isBlank()) {
        ions.merge(ion.strip(), 1, Integer::sum);
      }
    }
    return ions;
  }

  private String text(String key) {
    return texts.getOrDefault(key, "").strip();
  }

  private static IllegalArgumentException refusal(String key, String what) {
    return new IllegalArgumentException("'" + key + "': " + what + ".");
  }
}
