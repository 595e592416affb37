package tarnish.shared.chemistry;

import tarnish.shared.recipe.OxideMember;

/**
 * Two neighbours of an oxide series and how much of each a given oxygen content means.
 *
 * @param lower the member with less oxygen
 * @param upper the next member
 * @param lowerFraction share of the charge's formula units that are {@code lower}, 0 to 1
 * @param upperFraction the rest
 * @param upperMassFraction share of the mixture's mass that is {@code upper}, 0 to 1
 * @param beyond oxygen atoms per formula unit of the charge outside the series: negative below its
 *     first member, positive above its last, 0 inside; the fractions are then those of that member
 */
public record OxideMixture(
    OxideMember lower,
    OxideMember upper,
    double lowerFraction,
    double upperFraction,
    double upperMassFraction,
    double beyond) {}
