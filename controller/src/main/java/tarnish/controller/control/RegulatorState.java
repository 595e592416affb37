package tarnish.controller.control;

/**
 * What the temperature regulator remembers.
 *
 * @param active whether it regulated in the last tick
 * @param course of the setpoint; with a model only
 * @param integral integral part of the duty
 * @param filteredK measurement behind the derivative's filter, in K
 * @param ovenIntegralK integral part of the wanted oven temperature, in K; with a model only
 * @param windowS time since the relay's window began, in s
 * @param owedS on-time that the relay still owes, in s
 * @param relayOn whether the relay is on
 */
public record RegulatorState(
    boolean active,
    Course course,
    double integral,
    double filteredK,
    double ovenIntegralK,
    double windowS,
    double owedS,
    boolean relayOn) {
  static final RegulatorState IDLE = new RegulatorState(false, Course.NONE, 0, 0, 0, 0, 0, false);

  /** How fast time passes for the setpoint, 0 to 1. */
  public double progress() {
    return course.progress();
  }
}
