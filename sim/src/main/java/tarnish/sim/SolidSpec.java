package tarnish.sim;

import java.util.List;

/**
 * The charge and its rate laws.
 *
 * @param unitsMol formula units of the starting solid weighed in, in mol
 * @param unitKgPerMol molar mass of one formula unit of the starting solid
 * @param steps from the charge upwards, at least one
 * @param grindingEfficiency share of the crust that one grinding breaks, 0 to 1
 * @param densitiesKgPerM3 of the grains of the charge and of each member above it
 */
public record SolidSpec(
    double unitsMol,
    double unitKgPerMol,
    List<OxideStep> steps,
    double grindingEfficiency,
    List<Double> densitiesKgPerM3) {

  /** Molar mass of atomic oxygen in kg/mol (IUPAC 2021, abridged). */
  static final double OXYGEN_ATOM_KG_PER_MOL = 0.015999;

  public SolidSpec {
    steps = List.copyOf(steps);
    densitiesKgPerM3 = List.copyOf(densitiesKgPerM3);
    if (steps.isEmpty()) {
      throw new IllegalArgumentException("the series of oxides needs at least two members");
    }
    if (densitiesKgPerM3.size() != steps.size() + 1) {
      throw new IllegalArgumentException(
          "the charge and each of its "
              + steps.size()
              + " oxides need a density, got "
              + densitiesKgPerM3.size());
    }
  }

  /** The same charge with other rate laws. */
  public SolidSpec withSteps(List<OxideStep> other) {
    return new SolidSpec(unitsMol, unitKgPerMol, other, grindingEfficiency, densitiesKgPerM3);
  }

  /** Oxygen atoms that the highest member has gained per formula unit. */
  public double topOxygenPerUnit() {
    return steps.stream().mapToDouble(OxideStep::oxygenPerUnit).sum();
  }

  /** A rate or equilibrium constant: {@code value} at {@code referenceK}, Arrhenius elsewhere. */
  public record Arrhenius(double value, double referenceK, double energyJPerMol) {}

  /**
   * One step of the series.
   *
   * @param oxygenPerUnit oxygen atoms gained per formula unit of the starting solid
   * @param surface rate on a clean surface at {@link KineticsPresets#REFERENCE_PA}, in 1/s
   * @param diffusion rate through a crust of the whole charge, in 1/s
   * @param closingCrust conversion at which the crust closes for good; 0: it never does
   * @param gasTransportPerS fastest rate that the gas reaches the bed with, in 1/s
   * @param orderQuarters order in the oxygen pressure, in quarters, 0 to 4
   * @param equilibrium equilibrium oxygen pressure in Pa; {@code value} 0: irreversible
   * @param heatJPerMolO2 heat released per mol O₂ taken up
   */
  public record OxideStep(
      double oxygenPerUnit,
      Arrhenius surface,
      Arrhenius diffusion,
      double closingCrust,
      double gasTransportPerS,
      int orderQuarters,
      Arrhenius equilibrium,
      double heatJPerMolO2) {
    public OxideStep {
      if (!(oxygenPerUnit > 0)) {
        throw new IllegalArgumentException(
            "each member of the series must hold more oxygen than the one before it, step is "
                + oxygenPerUnit);
      }
      if (orderQuarters < 0 || orderQuarters > 4) {
        throw new IllegalArgumentException("order must be 0 to 4 quarters, got " + orderQuarters);
      }
    }
  }
}
