package tarnish.shared.chemistry;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Standard enthalpies of formation of solids at 298.15 K, in J/mol, of one published set.
 *
 * <p>Sets differ by 1 to 5 kJ/mol (BaO: -553.5 and -548.1) because each is consistent within itself
 * only, so a reaction takes all its values from one of them.
 */
public enum FormationEnthalpies {
  /**
   * NBS Tables of Chemical Thermodynamic Properties, J. Phys. Chem. Ref. Data 11 (1982) suppl. 2.
   */
  NBS_1982("NBS Tables 1982"),
  /** NIST-JANAF Thermochemical Tables, J. Phys. Chem. Ref. Data Monograph 9 (1998). */
  JANAF_1998("NIST-JANAF Tables 1998");

  /** One solid; {@code fromMemory} where the value was not seen in the source or a copy of it. */
  record Entry(double joulePerMol, boolean fromMemory) {}

  private static final double J_PER_KJ = 1e3;

  static {
    NBS_1982.remembered("Cu2O", -168.6);
    NBS_1982.remembered("CuO", -157.3);
    NBS_1982.seen("BaO", -553.5);
    NBS_1982.seen("BaO2", -634.3);
    NBS_1982.remembered("MgO", -601.70);
    NBS_1982.remembered("Fe3O4", -1118.4);
    NBS_1982.remembered("Fe2O3", -824.2);
    NBS_1982.remembered("NiO", -239.7);
    NBS_1982.remembered("Na2O", -414.22);
    NBS_1982.remembered("Na2O2", -510.87);
    NBS_1982.remembered("KO2", -284.93);
    JANAF_1998.remembered("Cu2O", -170.707);
    JANAF_1998.seen("CuO", -156.06);
    JANAF_1998.remembered("BaO", -548.1);
  }

  private final String citation;
  private final Map<Map<String, Integer>, Entry> byAtoms = new HashMap<>();

  FormationEnthalpies(String citation) {
    this.citation = citation;
  }

  /** The set's name as cited in a record. */
  public String citation() {
    return citation;
  }

  /** The entry of a solid; an element in its standard state is 0 by definition. */
  Optional<Entry> find(Formula solid) {
    if (solid.atoms().size() == 1 && solid.count("O") == 0) {
      return Optional.of(new Entry(0, false));
    }
    return Optional.ofNullable(byAtoms.get(solid.atoms()));
  }

  private void seen(String formula, double kilojoulePerMol) {
    put(formula, new Entry(kilojoulePerMol * J_PER_KJ, false));
  }

  private void remembered(String formula, double kilojoulePerMol) {
    put(formula, new Entry(kilojoulePerMol * J_PER_KJ, true));
  }

  private void put(String formula, Entry entry) {
    byAtoms.put(Formula.parse(formula).atoms(), entry);
  }
}
