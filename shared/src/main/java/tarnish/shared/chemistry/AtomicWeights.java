package tarnish.shared.chemistry;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tarnish.shared.estimate.Estimate;

/**
 * Standard atomic weights with their standard uncertainties (dimensionless; g/mol in number).
 *
 * <p>Source: IUPAC Commission on Isotopic Abundances and Atomic Weights, Standard atomic weights of
 * the elements 2021, Pure Appl. Chem. 94 (2022) 573. Three kinds of entry:
 *
 * <ul>
 *   <li>an interval [a, b], because ordinary samples differ: the value is the abridged one for
 *       users who need a single number, the uncertainty (b - a)/√12, a rectangular distribution of
 *       half-width (b - a)/2 (JCGM 100:2008, 4.3.7; 4.3.8 where the value is not in the middle).
 *       The abridged value of oxygen lies 0.00003 below its interval, by rounding;
 *   <li>value and uncertainty v(u), taken as given;
 *   <li>an abridged value alone (from memory), with a rectangular half-width of what its last digit
 *       may be off by.
 * </ul>
 */
public final class AtomicWeights {
  private static final Map<String, Estimate> BY_SYMBOL = new LinkedHashMap<>();

  static {
    interval("H", 1.0080, 1.00784, 1.00811);
    interval("Li", 6.94, 6.938, 6.997);
    given("Be", 9.0121831, 0.0000005);
    interval("B", 10.81, 10.806, 10.821);
    interval("C", 12.011, 12.0096, 12.0116);
    interval("N", 14.007, 14.00643, 14.00728);
    interval("O", 15.999, 15.99903, 15.99977);
    given("F", 18.998403162, 0.000000005);
    given("Na", 22.98976928, 0.00000002);
    interval("Mg", 24.305, 24.304, 24.307);
    given("Al", 26.9815384, 0.0000003);
    interval("Si", 28.085, 28.084, 28.086);
    given("P", 30.973761998, 0.000000005);
    interval("S", 32.06, 32.059, 32.076);
    interval("Cl", 35.45, 35.446, 35.457);
    interval("Ar", 39.95, 39.792, 39.963);
    given("K", 39.0983, 0.0001);
    given("Ca", 40.078, 0.004);
    given("Sc", 44.955907, 0.000004);
    given("Ti", 47.867, 0.001);
    given("V", 50.9415, 0.0001);
    given("Cr", 51.9961, 0.0006);
    given("Mn", 54.938043, 0.000002);
    given("Fe", 55.845, 0.002);
    given("Co", 58.933194, 0.000003);
    given("Ni", 58.6934, 0.0004);
    given("Cu", 63.546, 0.003);
    given("Zn", 65.38, 0.02);
    given("Ga", 69.723, 0.001);
    given("Ge", 72.630, 0.008);
    given("As", 74.921595, 0.000006);
    given("Se", 78.971, 0.008);
    interval("Br", 79.904, 79.901, 79.907);
    given("Rb", 85.4678, 0.0003);
    given("Sr", 87.62, 0.01);
    given("Y", 88.905838, 0.000002);
    given("Zr", 91.224, 0.002);
    given("Nb", 92.90637, 0.00001);
    given("Mo", 95.95, 0.01);
    given("Ru", 101.07, 0.02);
    given("Rh", 102.90549, 0.00002);
    given("Pd", 106.42, 0.01);
    given("Ag", 107.8682, 0.0002);
    given("Cd", 112.414, 0.004);
    given("In", 114.818, 0.001);
    given("Sn", 118.710, 0.007);
    given("Sb", 121.760, 0.001);
    given("Te", 127.60, 0.03);
    given("I", 126.90447, 0.00003);
    rounded("Cs", 132.91, 0.01);
    rounded("Ba", 137.33, 0.01);
    rounded("La", 138.91, 0.01);
    rounded("Ce", 140.12, 0.01);
    rounded("Pr", 140.91, 0.01);
    rounded("Nd", 144.24, 0.01);
    rounded("Sm", 150.36, 0.02);
    rounded("Eu", 151.96, 0.01);
    rounded("Gd", 157.25, 0.01);
    rounded("Tb", 158.93, 0.01);
    rounded("Dy", 162.50, 0.01);
    rounded("Ho", 164.93, 0.01);
    rounded("Er", 167.26, 0.01);
    rounded("Tm", 168.93, 0.01);
    given("Yb", 173.045, 0.010);
    rounded("Lu", 174.97, 0.01);
    rounded("W", 183.84, 0.01);
    rounded("Pt", 195.08, 0.01);
    rounded("Au", 196.97, 0.01);
    rounded("Hg", 200.59, 0.01);
    interval("Pb", 207.2, 206.14, 207.94);
    rounded("Bi", 208.98, 0.01);
    rounded("U", 238.03, 0.01);
    rounded("Hf", 178.49, 0.01);
    rounded("Ta", 180.95, 0.01);
    rounded("Re", 186.21, 0.01);
    rounded("Os", 190.23, 0.03);
    rounded("Ir", 192.22, 0.01);
    rounded("Tl", 204.38, 0.01);
    rounded("Th", 232.04, 0.01);
  }

  private AtomicWeights() {}

  /** The symbols of all elements known here. */
  public static Set<String> symbols() {
    return Set.copyOf(BY_SYMBOL.keySet());
  }

  public static boolean knows(String symbol) {
    return BY_SYMBOL.containsKey(symbol);
  }

  /**
   * The atomic weight of an element.
   *
   * @throws IllegalArgumentException if the element is not known: ask {@link #knows} first
   */
  public static Estimate of(String symbol) {
    Estimate weight = BY_SYMBOL.get(symbol);
    if (weight == null) {
      throw new IllegalArgumentException(
          "no atomic weight known for \"%s\"%s"
              .formatted(symbol, nearest(symbol).map(n -> "; did you mean " + n + "?").orElse("")));
    }
    return weight;
  }

  /** The known symbol at most one letter away from what was written, upper and lower case alike. */
  public static Optional<String> nearest(String written) {
    String same = null;
    String close = null;
    for (String symbol : BY_SYMBOL.keySet()) {
      if (symbol.equalsIgnoreCase(written)) {
        same = symbol;
      } else if (close == null && isOneLetterAway(symbol, written)) {
        close = symbol;
      }
    }
    return Optional.ofNullable(same != null ? same : close);
  }

  /** Same first letter, and the second one missing, added or another. */
  private static boolean isOneLetterAway(String symbol, String written) {
    return !written.isEmpty()
        && written.length() <= 2
        && symbol.length() + written.length() > 2
        && symbol.charAt(0) == Character.toUpperCase(written.charAt(0));
  }

  private static void interval(String symbol, double value, double low, double high) {
    BY_SYMBOL.put(symbol, new Estimate(value, (high - low) / StrictMath.sqrt(12)));
  }

  private static void given(String symbol, double value, double standardUncertainty) {
    BY_SYMBOL.put(symbol, new Estimate(value, standardUncertainty));
  }

  private static void rounded(String symbol, double value, double halfWidth) {
    BY_SYMBOL.put(symbol, new Estimate(value, halfWidth / StrictMath.sqrt(3)));
  }
}
