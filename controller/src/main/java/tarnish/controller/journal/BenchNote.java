package tarnish.controller.journal;

/**
 * Something done at the bench while no batch ran.
 *
 * @param wallTime calendar time, ISO 8601 with offset
 * @param person who did it
 * @param kind trial, reading or calibration
 * @param sentence what was done or found
 */
public record BenchNote(String wallTime, String person, String kind, String sentence) {}
