package tarnish.shared.rig;

import tarnish.shared.reading.Channel;

/**
 * One sensor of the rig, in SI units of its channel.
 *
 * @param channel what it stands for
 * @param element how it senses
 * @param resolution size of one step, above 0
 * @param rangeMin least value it can report
 * @param rangeMax greatest value it can report
 * @param standardUncertainty systematic standard uncertainty of a value (offset)
 * @param gainStandardUncertainty systematic relative standard uncertainty (gain)
 * @param noise standard deviation of one reading
 * @param lagS first-order time constant in s, 0 for none
 */
public record SensorDescription(
    Channel channel,
    SensorElement element,
    double resolution,
    double rangeMin,
    double rangeMax,
    double standardUncertainty,
    double gainStandardUncertainty,
    double noise,
    double lagS) {}
