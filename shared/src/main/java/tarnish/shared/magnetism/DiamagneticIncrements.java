package tarnish.shared.magnetism;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import tarnish.shared.estimate.Estimate;

/**
 * Diamagnetic increments of ions (Pascal's constants) in m³/mol (SI), all negative.
 *
 * <p>Bain and Berry, J. Chem. Educ. 85 (2008) 532; from memory, the alkali ions seen in a copy.
 * Copies differ: Cu²⁺ stands at -11 and at -12.8 in 10⁻⁶ cm³/mol. For oxides the sum is good to
 * about 10 units only (BaO, BaO₂ from their measured values leave -3 and -14 for the oxygen ions),
 * which is the uncertainty given here for O²⁻ and O₂²⁻.
 */
public final class DiamagneticIncrements {
  private static final Map<String, Estimate> BY_ION = new LinkedHashMap<>();

  static {
    increment("Na+", -6.8, 1);
    increment("K+", -14.9, 1);
    increment("Cs+", -35, 2);
    increment("Ba2+", -26.5, 2);
    increment("Cu2+", -11, 2);
    increment("O2-", -12, 10);
    // No published increment known; the measured BaO₂ (CRC Handbook, from memory) less Ba²⁺.
    increment("O2 2-", -14, 10);
  }

  private DiamagneticIncrements() {}

  /** The ions known here. */
  public static Set<String> ions() {
    return Set.copyOf(BY_ION.keySet());
  }

  /**
   * Sum of the increments of one formula unit in m³/mol, e.g. {@code {Cu2+: 1, O2-: 1}}.
   *
   * @throws IllegalArgumentException if an ion is not known or a count is below 1
   */
  public static Estimate sum(Map<String, Integer> ions) {
    Estimate sum = Estimate.exact(0);
    for (Map.Entry<String, Integer> each : ions.entrySet()) {
      Estimate increment = BY_ION.get(each.getKey());
      if (increment == null) {
        throw new IllegalArgumentException(
            "no diamagnetic increment known for '"
                + each.getKey()
                + "'; known are "
                + String.join(", ", BY_ION.keySet()));
      }
      if (each.getValue() < 1) {
        throw new IllegalArgumentException(
            each.getKey() + " is counted " + each.getValue() + " times; a count is 1 or more");
      }
      sum = sum.plusIndependent(increment.times(each.getValue()));
    }
    return sum;
  }

  private static void increment(String ion, double cgs, double uncertaintyCgs) {
    BY_ION.put(
        ion, new Estimate(cgs, uncertaintyCgs).times(1e-6 * Susceptibility.MOLAR_SI_PER_CGS));
  }
}
