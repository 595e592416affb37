package tarnish.shared.chemistry;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.OxideMember;

/**
 * The way from the charge to its highest oxide, in rising order of oxygen.
 *
 * <p>Oxygen is counted in atoms gained per formula unit of the charge: Cu, Cu2O, CuO stand at 0,
 * 0.5 and 1; Fe3O4, Fe2O3 at 0 and 0.5.
 */
public final class OxideSeries {
  private static final String OXYGEN = "O";

  private final Formula charge;
  private final List<OxideMember> members;
  private final Estimate oxygenKgPerMol;
  private final Estimate otherKgPerMol;

  private OxideSeries(Formula charge, List<OxideMember> members) {
    this.charge = charge;
    this.members = List.copyOf(members);
    this.oxygenKgPerMol = AtomicWeights.of(OXYGEN).times(Formula.KG_PER_MOL);
    this.otherKgPerMol = Formula.molarMassKgPerMol(withoutOxygen(charge));
  }

  /**
   * Reads a series.
   *
   * @param formulas the charge first, then its oxides with ever more oxygen
   * @throws FormulaException if a formula cannot be read
   * @throws IllegalArgumentException if the formulas are no such series; the message names the one
   *     at fault
   */
  public static OxideSeries of(List<String> formulas) {
    if (formulas.size() < 2) {
      throw new IllegalArgumentException(
          "a series of oxides needs the charge and at least one oxide, got " + formulas);
    }
    Formula charge = Formula.parse(formulas.get(0));
    if (withoutOxygen(charge).isEmpty()) {
      throw new IllegalArgumentException(
          "the charge %s holds nothing to be oxidised; name a solid with another element"
              .formatted(charge));
    }
    List<OxideMember> members = new ArrayList<>();
    members.add(new OxideMember(charge.text(), 0));
    for (String text : formulas.subList(1, formulas.size())) {
      OxideMember last = members.get(members.size() - 1);
      OxideMember member = new OxideMember(text, oxygenGained(charge, Formula.parse(text)));
      if (!(member.oxygenPerUnit() > last.oxygenPerUnit())) {
        throw new IllegalArgumentException(
            "%s comes after %s but holds no more oxygen (%s and %s atoms gained for each %s); "
                    .formatted(
                        text, last.formula(), member.oxygenPerUnit(), last.oxygenPerUnit(), charge)
                + "order the series by rising oxygen and name each composition once");
      }
      members.add(member);
    }
    return new OxideSeries(charge, members);
  }

  public Formula charge() {
    return charge;
  }

  /** The charge and its oxides, in rising order of oxygen. */
  public List<OxideMember> members() {
    return members;
  }

  /**
   * Mass gained over the mass of the charge at {@code oxygenPerUnit} atoms gained per formula unit:
   * g = n A(O) / M(charge). The weight of oxygen stands above and below the line, and its error is
   * carried through both.
   */
  public Estimate massGainFraction(double oxygenPerUnit) {
    double oxygen = oxygenKgPerMol.value();
    double total = chargeKgPerMol();
    double byOxygen = oxygenPerUnit * otherKgPerMol.value() / (total * total);
    double byOther = oxygenPerUnit * oxygen / (total * total);
    return new Estimate(
        oxygenPerUnit * oxygen / total,
        StrictMath.hypot(
            byOxygen * oxygenKgPerMol.standardUncertainty(),
            byOther * otherKgPerMol.standardUncertainty()));
  }

  /** Mass gain fraction of each member, in their order; 0 for the charge. */
  public List<Estimate> massGainFractions() {
    return members.stream().map(m -> massGainFraction(m.oxygenPerUnit())).toList();
  }

  /** Oxygen gas needed in mol O2 per kg of charge to reach {@code oxygenPerUnit}. */
  public Estimate oxygenMolPerKgCharge(double oxygenPerUnit) {
    Estimate molarMass = charge.molarMassKgPerMol();
    double molPerKg = oxygenPerUnit / 2 / molarMass.value();
    double relative = molarMass.standardUncertainty() / molarMass.value();
    return new Estimate(molPerKg, StrictMath.abs(molPerKg) * relative);
  }

  /**
   * Which two members, and how much of each, make {@code oxygenPerUnit}: the lever rule. Only
   * oxygen is counted, so a mixture of other members with the same oxygen cannot be told apart from
   * it.
   *
   * @throws IllegalArgumentException if {@code oxygenPerUnit} is not finite
   */
  public OxideMixture lever(double oxygenPerUnit) {
    if (!Double.isFinite(oxygenPerUnit)) {
      throw new IllegalArgumentException(
          "oxygen per formula unit must be finite, got " + oxygenPerUnit);
    }
    double first = members.get(0).oxygenPerUnit();
    double last = members.get(members.size() - 1).oxygenPerUnit();
    double inside = StrictMath.max(first, StrictMath.min(last, oxygenPerUnit));
    int upper = 1;
    while (members.get(upper).oxygenPerUnit() < inside) {
      upper++;
    }
    OxideMember below = members.get(upper - 1);
    OxideMember above = members.get(upper);
    double fraction =
        (inside - below.oxygenPerUnit()) / (above.oxygenPerUnit() - below.oxygenPerUnit());
    double massFraction = fraction * massPerUnit(above.oxygenPerUnit()) / massPerUnit(inside);
    return new OxideMixture(
        below, above, 1 - fraction, fraction, massFraction, oxygenPerUnit - inside);
  }

  /** Mass in kg/mol of the solid that came from one formula unit of the charge. */
  private double massPerUnit(double oxygenPerUnit) {
    return chargeKgPerMol() + oxygenPerUnit * oxygenKgPerMol.value();
  }

  private double chargeKgPerMol() {
    return otherKgPerMol.value() + charge.count(OXYGEN) * oxygenKgPerMol.value();
  }

  private static double oxygenGained(Formula charge, Formula member) {
    return member.count(OXYGEN) * unitsPerUnit(charge, member) - charge.count(OXYGEN);
  }

  /** Formula units of {@code member} made from one of {@code charge}; refuses what is no oxide. */
  static double unitsPerUnit(Formula charge, Formula member) {
    Map<String, Integer> from = withoutOxygen(charge);
    Map<String, Integer> to = withoutOxygen(member);
    if (!from.keySet().equals(to.keySet())) {
      throw new IllegalArgumentException(
          "%s is no oxide of %s: besides oxygen it holds %s, the charge holds %s"
              .formatted(member, charge, words(to), words(from)));
    }
    String first = from.keySet().iterator().next();
    for (String symbol : from.keySet()) {
      long crosswise = (long) from.get(symbol) * to.get(first);
      if (crosswise != (long) to.get(symbol) * from.get(first)) {
        throw new IllegalArgumentException(
            "%s is no oxide of %s: %s and %s stand %d : %d in it and %d : %d in the charge"
                .formatted(
                    member,
                    charge,
                    first,
                    symbol,
                    to.get(first),
                    to.get(symbol),
                    from.get(first),
                    from.get(symbol)));
      }
    }
    return (double) from.get(first) / to.get(first);
  }

  private static Map<String, Integer> withoutOxygen(Formula formula) {
    Map<String, Integer> others = new LinkedHashMap<>(formula.atoms());
    others.remove(OXYGEN);
    return others;
  }

  private static String words(Map<String, Integer> atoms) {
    return atoms.isEmpty() ? "nothing" : String.join(", ", atoms.keySet());
  }
}
