package tarnish.shared.chemistry;

import java.util.Collections;
import java.util.Map;
import tarnish.shared.estimate.Estimate;

/**
 * A chemical formula and the atoms of one formula unit, e.g. {@code Ba(OH)2·8H2O}.
 *
 * <p>Read are element symbols, groups in ( ) or [ ], nested, whole-number counts (also as
 * subscripts ₂), and parts joined by · or * with a leading count. Charges, isotopes and fractional
 * counts are not: a composition such as Fe0.95O is written Fe19O20.
 */
public final class Formula {
  /** Molar mass constant in kg/mol: atomic weights are g/mol in number. */
  static final double KG_PER_MOL = 1e-3;

  private final String text;
  private final Map<String, Integer> atoms;

  private Formula(String text, Map<String, Integer> atoms) {
    this.text = text;
    this.atoms = Collections.unmodifiableMap(atoms);
  }

  /**
   * Reads a formula.
   *
   * @throws FormulaException with position and expectation if it cannot be read
   */
  public static Formula parse(String text) {
    return new Formula(text, new FormulaReader(text).read());
  }

  /** As it was written. */
  public String text() {
    return text;
  }

  /** Atoms of each element in one formula unit, in the order of the formula. */
  public Map<String, Integer> atoms() {
    return atoms;
  }

  /** Atoms of {@code symbol} in one formula unit, 0 if there is none. */
  public int count(String symbol) {
    return atoms.getOrDefault(symbol, 0);
  }

  /**
   * Mass of one mole of formula units in kg/mol; atomic weights of different elements independent.
   */
  public Estimate molarMassKgPerMol() {
    return molarMassKgPerMol(atoms);
  }

  static Estimate molarMassKgPerMol(Map<String, Integer> atoms) {
    Estimate sum = Estimate.exact(0);
    for (Map.Entry<String, Integer> entry : atoms.entrySet()) {
      sum = sum.plusIndependent(AtomicWeights.of(entry.getKey()).times(entry.getValue()));
    }
    return sum.times(KG_PER_MOL);
  }

  @Override
  public String toString() {
    return text;
  }
}
