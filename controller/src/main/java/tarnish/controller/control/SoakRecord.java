package tarnish.controller.control;

/**
 * One soak of the record.
 *
 * @param position place in the program
 * @param setpointK its temperature
 * @param requiredS time in band that the recipe asks for
 * @param inBandS time in band that was earned
 */
public record SoakRecord(int position, double setpointK, double requiredS, double inBandS) {}
