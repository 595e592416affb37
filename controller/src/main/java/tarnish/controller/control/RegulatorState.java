package tarnish.controller.control;

/**
 * What the temperature regulator remembers.
 *
 * @param active whether it regulated in the last tick
 * @param setpointK where the setpoint stands, in K; meaningful while active
 * @param integral integral part of the duty
 * @param filteredK measurement behind the derivative's filter, in K
 * @param filteredRateKPerS its rate of change, in K/s
 * @param windowS time since the relay's window began, in s
 * @param owedS on-time that the relay still owes, in s
 * @param relayOn whether the relay is on
 */
public record RegulatorState(
    boolean active,
    double setpointK,
    double integral,
    double filteredK,
    double filteredRateKPerS,
    double windowS,
    double owedS,
    boolean relayOn) {
  static final RegulatorState IDLE = new RegulatorState(false, 0, 0, 0, 0, 0, 0, false);
}
