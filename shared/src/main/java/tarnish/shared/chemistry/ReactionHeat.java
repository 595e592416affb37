package tarnish.shared.chemistry;

import java.util.List;
import java.util.Optional;

/**
 * Heat of an oxidation step at 298.15 K, from one set of formation enthalpies.
 *
 * <p>At the temperature of the oven it differs by a few per cent (heat capacities are left out);
 * fit for sizing doses and for reading the heat signal, not for calorimetry.
 *
 * @param from formula of the lower member
 * @param to formula of the higher member
 * @param enthalpyJPerMolO2 reaction enthalpy in J per mol O2 taken up; negative, heat is given off
 * @param source the set all its values come from
 * @param fromMemory whether a value was not seen in its source or a copy, and wants a second look
 */
public record ReactionHeat(
    String from,
    String to,
    double enthalpyJPerMolO2,
    FormationEnthalpies source,
    boolean fromMemory) {

  /**
   * The heat of {@code from} becoming {@code to}, from the NBS tables, which hold every solid here,
   * so that the steps of one series add up.
   *
   * @return empty where a formation enthalpy is not known
   * @throws IllegalArgumentException if {@code to} is no higher oxide of {@code from}
   */
  public static Optional<ReactionHeat> between(String from, String to) {
    return between(from, to, FormationEnthalpies.NBS_1982);
  }

  /** The same from a set of the caller's choice. */
  public static Optional<ReactionHeat> between(String from, String to, FormationEnthalpies set) {
    OxideSeries series = OxideSeries.of(List.of(from, to));
    double oxygenMol = series.members().get(1).oxygenPerUnit() / 2;
    Formula product = Formula.parse(to);
    double units = OxideSeries.unitsPerUnit(series.charge(), product);
    return set.find(series.charge())
        .flatMap(
            lower ->
                set.find(product)
                    .map(
                        upper ->
                            new ReactionHeat(
                                from,
                                to,
                                (units * upper.joulePerMol() - lower.joulePerMol()) / oxygenMol,
                                set,
                                lower.fromMemory() || upper.fromMemory())));
  }
}
