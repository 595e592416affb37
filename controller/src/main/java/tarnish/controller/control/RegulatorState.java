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
 * @param rampK where the recipe's straight ramp stands, in K; this and the rest: with a model only
 * @param lineK where the straight ramp would stand had it not been slowed at its corners, in K
 * @param firstK the ramp behind one lag, in K
 * @param secondK the ramp behind two lags, in K; behind three it is the setpoint
 * @param lagS each of those lags, in s
 * @param ovenIntegralK integral part of the wanted oven temperature, in K
 * @param progress how fast time passes for the setpoint, 0 to 1
 */
public record RegulatorState(
    boolean active,
    double setpointK,
    double integral,
    double filteredK,
    double filteredRateKPerS,
    double windowS,
    double owedS,
    boolean relayOn,
    double rampK,
    double lineK,
    double firstK,
    double secondK,
    double lagS,
    double ovenIntegralK,
    double progress) {
  static final RegulatorState IDLE = new RegulatorState(false, 0, 0, 0, 0, 0, 0, false);

  /** The state of a regulator without a model. */
  RegulatorState(
      boolean active,
      double setpointK,
      double integral,
      double filteredK,
      double filteredRateKPerS,
      double windowS,
      double owedS,
      boolean relayOn) {
    this(
        active,
        setpointK,
        integral,
        filteredK,
        filteredRateKPerS,
        windowS,
        owedS,
        relayOn,
        setpointK,
        setpointK,
        setpointK,
        setpointK,
        0,
        0,
        1);
  }

  RegulatorState withRelay(double newWindowS, double newOwedS, boolean on) {
    return new RegulatorState(
        active,
        setpointK,
        integral,
        filteredK,
        filteredRateKPerS,
        newWindowS,
        newOwedS,
        on,
        rampK,
        lineK,
        firstK,
        secondK,
        lagS,
        ovenIntegralK,
        progress);
  }
}
