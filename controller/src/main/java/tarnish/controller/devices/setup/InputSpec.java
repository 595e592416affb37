package tarnish.controller.devices.setup;

/**
 * One thing a device can tell.
 *
 * @param name within the device
 * @param where the device is asked for it
 * @param scaling from its number to a reading
 * @param everyS how often it is asked, in s
 */
public record InputSpec(String name, InputPlace where, Scaling scaling, double everyS) {}
