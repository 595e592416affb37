package tarnish.controller.files;

import java.util.List;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.FormulaException;
import tarnish.shared.chemistry.OxideSeries;
import tarnish.shared.recipe.OxideMember;

/** What a recipe's formulas mean: molar mass of the charge and oxygen of each member. */
final class SeriesReader {
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
    return parse(formula).molarMassKgPerMol().value();
  }

  /** The member {@code formula} of the series that starts at {@code charge}. */
  static OxideMember member(String charge, String formula) throws Unfit {
    parse(formula);
    if (formula.equals(charge)) {
      return new OxideMember(formula, 0);
    }
    try {
      return OxideSeries.of(List.of(charge, formula)).members().get(1);
    } catch (IllegalArgumentException notInSeries) {
      throw new Unfit(
          "'" + Faults.shortened(formula) + "'",
          "an oxide of " + charge + " with more oxygen (" + notInSeries.getMessage() + ")");
    }
  }

  private static Formula parse(String formula) throws Unfit {
    try {
      return Formula.parse(formula);
    } catch (FormulaException e) {
      throw new Unfit(
          "'" + Faults.shortened(formula) + "', which fails at character " + e.position(),
          "a chemical formula, e.g. Cu2O, with here " + e.expected());
    }
  }
}
