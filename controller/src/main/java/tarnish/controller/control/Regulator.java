package tarnish.controller.control;

import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Regulation;

/**
 * PID regulation with setpoint weight, derivative on the measurement, conditional integration
 * against windup, and time-proportioned output for a relay.
 *
 * <p>u = K (b·r − y) + I − K·Td·dy/dt, dI/dt = K/Ti (r − y). Source: K. J. Åström and T. Hägglund,
 * Advanced PID Control, ISA 2006, chapter 3 (from memory).
 */
final class Regulator {
  private static final int FULL_PER_MILLE = 1000;

  /** Derivative filter as a share of the derivative time; 1/10 to 1/3 is common practice. */
  private static final double FILTER_SHARE = 0.2;

  /** Width over which the duty fades out as the oven nears its greatest lead, in K. */
  private static final double LEAD_FADE_K = 10;

  private final Regulation settings;
  private final Heater heater;

  Regulator(Regulation settings, Heater heater) {
    this.settings = settings;
    this.heater = heater;
  }

  /** State and output of one tick. */
  record Turn(RegulatorState state, int perMille, boolean relayOn) {}

  /** What the loops remember of a tick in which they regulate: a state but for the relay. */
  record Loop(Course course, double integral, double filteredK, double ovenIntegralK) {
    RegulatorState with(double windowS, double owedS, boolean relayOn) {
      return new RegulatorState(
          true, course, integral, filteredK, ovenIntegralK, windowS, owedS, relayOn);
    }
  }

  /**
   * One tick of regulation.
   *
   * @param setpointK wanted temperature of the controlled channel
   * @param measuredK its measured value
   * @param ovenK measured oven temperature
   * @param tickS time since the last tick, above 0
   */
  Turn step(RegulatorState state, double setpointK, double measuredK, double ovenK, double tickS) {
    boolean fresh = !state.active();
    double filteredK = measuredK;
    double rateKPerS = 0;
    if (!fresh && settings.derivativeS() > 0) {
      double filterS = FILTER_SHARE * settings.derivativeS();
      double share = tickS / (filterS + tickS);
      filteredK = state.filteredK() + share * (measuredK - state.filteredK());
      rateKPerS = (filteredK - state.filteredK()) / tickS;
    }
    double gain = settings.gainPerK();
    double proportional = gain * (settings.setpointWeight() * setpointK - measuredK);
    // Starting from a standing heater: the integral takes up what the other terms would jump by.
    double integral = fresh ? -proportional : state.integral();
    double wanted = proportional + integral - gain * settings.derivativeS() * rateKPerS;
    double allowed = heater.dutyMax() * leadShare(ovenK - setpointK);
    double duty = StrictMath.max(0, StrictMath.min(wanted, allowed));
    double error = setpointK - measuredK;
    boolean pushesOut = (wanted > allowed && error > 0) || (wanted < 0 && error < 0);
    if (!pushesOut) {
      integral += gain / settings.integralS() * error * tickS;
    }
    Loop loop = new Loop(Course.NONE, integral, filteredK, 0);
    return drive(heater, loop, duty, fresh, state, tickS);
  }

  private double leadShare(double leadK) {
    double share = (settings.ovenLeadMaxK() - leadK) / LEAD_FADE_K;
    return StrictMath.max(0, StrictMath.min(1, share));
  }

  /** Neither the time on nor the rest of the window, which is off, may be too short. */
  private static boolean mayOpen(Heater heater, double windowS) {
    return windowS >= heater.minimumSwitchS()
        && heater.windowS() - windowS >= heater.minimumSwitchS();
  }

  /**
   * Gives a duty to the actuator, time-proportioned for a relay.
   *
   * @param loop what the loops remember after this tick
   * @param fresh whether the heater stood before this tick
   */
  static Turn drive(
      Heater heater, Loop loop, double duty, boolean fresh, RegulatorState state, double tickS) {
    int perMille = (int) StrictMath.round(duty * FULL_PER_MILLE);
    double windowS = fresh ? 0 : state.windowS() + tickS;
    double owedS = state.owedS();
    boolean relayOn = state.relayOn() && !fresh;
    if (relayOn) {
      owedS -= tickS;
    }
    if (fresh || windowS >= heater.windowS()) {
      windowS = 0;
      owedS = StrictMath.max(-heater.windowS(), owedS) + duty * heater.windowS();
      relayOn = owedS >= heater.minimumSwitchS();
    } else if (relayOn && owedS <= tickS / 2 && mayOpen(heater, windowS)) {
      relayOn = false;
    }
    boolean on = heater.actuator() == Heater.Actuator.RELAY ? relayOn : perMille > 0;
    return new Turn(loop.with(windowS, owedS, relayOn), perMille, on);
  }
}
