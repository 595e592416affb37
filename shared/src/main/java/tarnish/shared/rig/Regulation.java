package tarnish.shared.rig;

import java.util.Optional;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.reading.Channel;

/**
 * How the temperature is regulated on this rig.
 *
 * @param controlled the channel that is held at the setpoint: sample or oven temperature
 * @param gainPerK proportional gain, duty per K
 * @param integralS integral time in s, above 0
 * @param derivativeS derivative time in s, 0 for none
 * @param setpointWeight share of the setpoint that the proportional term sees, 0 to 1
 * @param ovenLeadMaxK how far the oven may run ahead of the setpoint before the duty is cut, in K
 * @param model of the oven, by which it is regulated instead of by gain, integral, derivative and
 *     setpoint weight; empty before the oven has been identified
 */
public record Regulation(
    Channel controlled,
    double gainPerK,
    double integralS,
    double derivativeS,
    double setpointWeight,
    double ovenLeadMaxK,
    Optional<IdentifiedOven> model) {

  /** Regulation of an oven that has not been identified. */
  public Regulation(
      Channel controlled,
      double gainPerK,
      double integralS,
      double derivativeS,
      double setpointWeight,
      double ovenLeadMaxK) {
    this(
        controlled,
        gainPerK,
        integralS,
        derivativeS,
        setpointWeight,
        ovenLeadMaxK,
        Optional.empty());
  }

  public Regulation withModel(IdentifiedOven other) {
    return new Regulation(
        controlled,
        gainPerK,
        integralS,
        derivativeS,
        setpointWeight,
        ovenLeadMaxK,
        Optional.of(other));
  }
}
