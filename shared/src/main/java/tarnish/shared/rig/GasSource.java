package tarnish.shared.rig;

/**
 * A gas supply with the metering path into the vessel.
 *
 * @param name as a recipe refers to it
 * @param oxygenFraction amount fraction of O₂, 0 to 1
 * @param oxygenFractionStandardUncertainty of the above
 * @param supplyPressurePa absolute, upstream of the valve
 * @param sonicConductance C of ISO 6358 for air, in m³/(s Pa)
 * @param criticalRatio b of ISO 6358, 0 to 1
 */
public record GasSource(
    String name,
    double oxygenFraction,
    double oxygenFractionStandardUncertainty,
    double supplyPressurePa,
    double sonicConductance,
    double criticalRatio) {}
