package tarnish.shared.recipe;

/**
 * What is weighed into the vessel.
 *
 * @param formula chemical formula of the starting solid, e.g. {@code Cu}
 * @param massKg mass in kg, above 0
 * @param massStandardUncertaintyKg standard uncertainty of the mass in kg
 */
public record Charge(String formula, double massKg, double massStandardUncertaintyKg) {}
