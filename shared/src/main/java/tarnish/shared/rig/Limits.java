package tarnish.shared.rig;

/**
 * What must not be exceeded, in one state of presence.
 *
 * @param sampleMaxK sample temperature
 * @param ovenMaxK oven temperature
 * @param sealMaxK seal temperature
 * @param pressureMaxPa absolute vessel pressure
 * @param rampMaxKPerS fastest ramp a recipe may ask for
 * @param pulseMaxPa largest pressure step of one oxygen pulse
 */
public record Limits(
    double sampleMaxK,
    double ovenMaxK,
    double sealMaxK,
    double pressureMaxPa,
    double rampMaxKPerS,
    double pulseMaxPa) {}
