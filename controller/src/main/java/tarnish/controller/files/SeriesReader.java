package tarnish.controller.files;

import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tarnish.shared.recipe.OxideMember;

/**
 * What a recipe's formulas mean: molar mass of the charge and oxygen of each member. A stand-in
 * until the shared chemistry takes over; nothing outside this class knows how a formula is read.
 */
final class SeriesReader {
  private static final Pattern FORMULA = Pattern.compile("([A-Z][a-z]?)([0-9]{0,3})");

  /** Standard atomic weights in g/mol, IUPAC 2021 (abridged; from memory). */
  private static final Map<String, Double> ATOMIC_WEIGHTS =
      Map.ofEntries(
          Map.entry("H", 1.008),
          Map.entry("C", 12.011),
          Map.entry("O", 15.999),
          Map.entry("Mg", 24.305),
          Map.entry("Al", 26.982),
          Map.entry("Ti", 47.867),
          Map.entry("Mn", 54.938),
          Map.entry("Fe", 55.845),
          Map.entry("Co", 58.933),
          Map.entry("Ni", 58.693),
          Map.entry("Cu", 63.546),
          Map.entry("Zn", 65.38),
          Map.entry("Sr", 87.62),
          Map.entry("Ba", 137.33));

  private SeriesReader() {}

  /** Why a formula or a series cannot be taken. */
  static final class Unfit extends Exception {
    private static final long serialVersionUID = 1L;

    final transient String found;
    final transient String expected;

    Unfit(String found, String expected) {
      super("found " + found + ", expected " + expected);
      this.found = found;
      this.expected = expected;
    }
  }

  static double molarMassKgPerMol(String formula) throws Unfit {
    double grams = 0;
    for (Map.Entry<String, Integer> entry : atoms(formula).entrySet()) {
      grams += ATOMIC_WEIGHTS.get(entry.getKey()) * entry.getValue();
    }
    return grams / 1000;
  }

  /** The member {@code formula} of the series that starts at {@code charge}. */
  static OxideMember member(String charge, String formula) throws Unfit {
    Map<String, Integer> start = atoms(charge);
    Map<String, Integer> member = atoms(formula);
    double oxygenStart = start.getOrDefault("O", 0);
    double oxygenMember = member.getOrDefault("O", 0);
    start.remove("O");
    member.remove("O");
    if (!start.keySet().equals(member.keySet()) || start.isEmpty()) {
      throw new Unfit("'" + formula + "'", "the same elements as in " + charge + ", and oxygen");
    }
    // Scale the member to as many other atoms as one unit of the charge has.
    String first = start.keySet().iterator().next();
    for (String element : start.keySet()) {
      if (start.get(element) * member.get(first) != start.get(first) * member.get(element)) {
        throw new Unfit("'" + formula + "'", "the proportions of " + charge + ", oxygen apart");
      }
    }
    double scale = (double) start.get(first) / member.get(first);
    return new OxideMember(formula, oxygenMember * scale - oxygenStart);
  }

  private static Map<String, Integer> atoms(String formula) throws Unfit {
    if (formula.length() > 60) {
      throw new Unfit("'" + Faults.shortened(formula) + "'", "a chemical formula, e.g. Cu2O");
    }
    Map<String, Integer> atoms = new TreeMap<>();
    Matcher matcher = FORMULA.matcher(formula);
    int end = 0;
    while (matcher.find() && matcher.start() == end) {
      String element = matcher.group(1);
      int count = matcher.group(2).isEmpty() ? 1 : Integer.parseInt(matcher.group(2));
      if (!ATOMIC_WEIGHTS.containsKey(element)) {
        throw new Unfit(
            "the element '" + element + "' in '" + formula + "'",
            "one of " + String.join(", ", new TreeMap<>(ATOMIC_WEIGHTS).keySet()));
      }
      if (count == 0) {
        break;
      }
      atoms.merge(element, count, Integer::sum);
      end = matcher.end();
    }
    if (end != formula.length() || formula.isEmpty()) {
      throw new Unfit("'" + Faults.shortened(formula) + "'", "a chemical formula, e.g. Cu2O");
    }
    return atoms;
  }
}
