package tarnish.controller.devices.setup;

/** One thing a device can be told. */
public record OutputSpec(String name, OutputPlace where) {}
