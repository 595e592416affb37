package tarnish.shared.recipe;

/**
 * One member of the series from the starting solid to the highest oxide.
 *
 * @param formula chemical formula, e.g. {@code Cu2O}
 * @param oxygenPerUnit oxygen atoms gained per formula unit of the starting solid, 0 for the charge
 *     itself: Cu 0, Cu₂O 0.5, CuO 1
 */
public record OxideMember(String formula, double oxygenPerUnit) {}
