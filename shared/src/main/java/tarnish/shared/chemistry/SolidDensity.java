package tarnish.shared.chemistry;

import java.util.HashMap;
import java.util.Map;
import tarnish.shared.estimate.Estimate;

/** Density of solids, as far as the buoyancy of a weighing needs it; all values from memory. */
public final class SolidDensity {
  /** Grains have pores, and copies of the tables differ. */
  private static final double RELATIVE_UNCERTAINTY = 0.03;

  /** Of a metal or oxide that is not in the table, in kg/m³: from 4 000 to 8 000 about. */
  private static final Estimate UNKNOWN = new Estimate(6000, 1500);

  private static final Map<Map<String, Integer>, Double> TABLE = new HashMap<>();

  static {
    put("Cu", 8960);
    put("Cu2O", 6000);
    put("CuO", 6310);
    put("Ni", 8910);
    put("NiO", 6670);
    put("Ba", 3620);
    put("BaO", 5720);
    put("BaO2", 4960);
    put("Mg", 1740);
    put("MgO", 3580);
    put("Fe", 7870);
    put("Fe3O4", 5170);
    put("Fe2O3", 5250);
  }

  private SolidDensity() {}

  /** In kg/m³; wide where the solid is not known here. */
  public static Estimate kgPerM3(Formula solid) {
    Double known = TABLE.get(solid.atoms());
    return known == null ? UNKNOWN : new Estimate(known, RELATIVE_UNCERTAINTY * known);
  }

  private static void put(String formula, double kgPerM3) {
    TABLE.put(Formula.parse(formula).atoms(), kgPerM3);
  }
}
