package tarnish.controller.fuzz;

import java.nio.charset.StandardCharsets;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.FormulaException;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;

/** Any text as a chemical formula and as a quantity; the first byte chooses the dimension. */
public final class FuzzFormula {
  private static final Dimension[] DIMENSIONS = Dimension.values();

  private FuzzFormula() {}

  public static void fuzzerTestOneInput(byte[] data) {
    if (data.length == 0) {
      return;
    }
    String text = new String(data, 1, data.length - 1, StandardCharsets.UTF_8);
    formula(text);
    Dimension dimension = DIMENSIONS[(data[0] & 0xFF) % DIMENSIONS.length];
    try {
      finite(Quantities.parse(text, dimension), text);
    } catch (NotAQuantity expected) {
      told(expected, text);
    }
    try {
      Quantities.Range range = Quantities.parseRange(text, dimension);
      finite(range.from(), text);
      finite(range.to(), text);
    } catch (NotAQuantity expected) {
      told(expected, text);
    }
    try {
      Estimate estimate = Quantities.parseEstimate(text, dimension);
      finite(estimate.value(), text);
    } catch (NotAQuantity expected) {
      told(expected, text);
    }
  }

  private static void formula(String text) {
    try {
      Formula formula = Formula.parse(text);
      Estimate mass = formula.molarMassKgPerMol();
      if (!(mass.value() > 0)) {
        throw new AssertionError("a molar mass of " + mass.value() + ": " + text);
      }
      if (!Formula.parse(formula.text()).atoms().equals(formula.atoms())) {
        throw new AssertionError("read twice, it differs: " + text);
      }
    } catch (FormulaException expected) {
      if (expected.position() < 1 || expected.position() > text.length() + 1) {
        throw new AssertionError("a place outside of the formula: " + expected.getMessage());
      }
    }
  }

  private static void finite(double value, String text) {
    if (!Double.isFinite(value)) {
      throw new AssertionError("not a finite number: " + text);
    }
  }

  private static void told(NotAQuantity refusal, String text) {
    if (refusal.found().isEmpty() || refusal.expected().isEmpty()) {
      throw new AssertionError("refused without words: " + text);
    }
  }
}
