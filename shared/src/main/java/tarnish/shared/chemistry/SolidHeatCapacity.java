package tarnish.shared.chemistry;

import java.util.HashMap;
import java.util.Map;

/**
 * Heat capacity of a solid near room temperature; it grows by some per cent with each 100 K.
 *
 * @param joulePerMolK in J/(mol K) of formula units
 * @param source where it comes from, in words
 */
public record SolidHeatCapacity(double joulePerMolK, String source) {
  /** About 3 R for each atom (Dulong and Petit; Kopp for compounds); oxides lie some 20 % lower. */
  private static final double JOULE_PER_ATOM_K = 25;

  private static final Map<Map<String, Integer>, Double> TABLE = new HashMap<>();

  static {
    put("Cu", 24.44);
    put("Cu2O", 63.64);
    put("CuO", 42.30);
    put("Ba", 28.07);
    put("BaO", 47.78);
    put("BaO2", 66.9);
    put("Mg", 24.89);
    put("MgO", 37.15);
    put("Fe", 25.10);
    put("Fe3O4", 143.43);
    put("Fe2O3", 103.85);
    put("Ni", 26.07);
    put("NiO", 44.31);
    put("Na", 28.24);
    put("Na2O", 69.12);
    put("Na2O2", 89.24);
    put("K", 29.58);
    put("KO2", 77.53);
  }

  /** From the NBS tables where the solid is there, else by the rule of Dulong, Petit and Kopp. */
  public static SolidHeatCapacity of(Formula solid) {
    Double known = TABLE.get(solid.atoms());
    if (known != null) {
      return new SolidHeatCapacity(known, "NBS Tables 1982, from memory");
    }
    int atoms = solid.atoms().values().stream().mapToInt(Integer::intValue).sum();
    return new SolidHeatCapacity(
        JOULE_PER_ATOM_K * atoms, "rule of Dulong, Petit and Kopp, 25 J/(mol K) per atom");
  }

  private static void put(String formula, double joulePerMolK) {
    TABLE.put(Formula.parse(formula).atoms(), joulePerMolK);
  }
}
