package tarnish.sim;

import tarnish.shared.reading.Channel;

/**
 * The hidden systematic error of one sensor: reading = true * (1 + gain) + offset.
 *
 * @param channel whose sensor
 * @param offset in the channel's SI unit
 * @param gain relative
 */
public record SensorError(Channel channel, double offset, double gain) {}
