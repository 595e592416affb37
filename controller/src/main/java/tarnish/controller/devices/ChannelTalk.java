package tarnish.controller.devices;

import tarnish.shared.reading.Reading;

/**
 * What is known of one channel besides its reading, for a person who checks the bench.
 *
 * @param device who speaks for it
 * @param raw what the device last said, as it came; may be empty
 * @param uncorrected the value before any calibration
 * @param freshness a mark that changes with every answer
 * @param answerMillis how long the device's last answer took; NaN where that means nothing
 */
public record ChannelTalk(
    String device, String raw, Reading uncorrected, long freshness, double answerMillis) {}
