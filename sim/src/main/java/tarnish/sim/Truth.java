package tarnish.sim;

/**
 * What is really so on the simulated bench; for tests and never for a controller.
 *
 * @param timeS since the start
 * @param elementK heater element
 * @param wallK oven wall
 * @param vesselK vessel
 * @param sampleK sample
 * @param sealK seal
 * @param pressurePa in the vessel
 * @param oxygenMol O₂ in the gas
 * @param inertMol inert gas in the vessel
 * @param oxygenPerUnit oxygen atoms gained per formula unit
 * @param uptakeMol O₂ that the solid has taken up since the start, spilled solid included
 * @param heatRateW heat released by the reaction
 * @param solidMassKg solid in the vessel
 */
public record Truth(
    double timeS,
    double elementK,
    double wallK,
    double vesselK,
    double sampleK,
    double sealK,
    double pressurePa,
    double oxygenMol,
    double inertMol,
    double oxygenPerUnit,
    double uptakeMol,
    double heatRateW,
    double solidMassKg) {}
