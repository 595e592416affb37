package tarnish.controller.control;

import tarnish.shared.oven.OvenModel;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Regulation;

/**
 * Regulation by an identified model of the oven, in two degrees of freedom.
 *
 * <p>Forwards, the model run backwards says which course of the oven and which duty make the sample
 * follow the setpoint (ramp, loss and radiation included). What is left is fed back in a cascade: a
 * PID of the sample moves the wanted oven temperature, within the greatest lead; a PI of the oven
 * moves the duty. Both are tuned from the model at the present temperature by the SIMC rules (S.
 * Skogestad, J. Process Control 13 (2003) 291). Immutable; allocates its turn only.
 */
final class ModelRegulator {
  /** Lag of the sample at which a strained oven slows its setpoint, in K. */
  static final double SLOW_FROM_K = 0.7;

  /** Lag of the sample at which the setpoint of a strained oven stands still, in K. */
  static final double WAIT_FROM_K = 1.7;

  /** Derivative filter as a share of the derivative time; 1/10 to 1/3 is common practice. */
  private static final double FILTER_SHARE = 0.2;

  private final Heater heater;
  private final OvenModel model;
  private final RegulatorTuning tuning;
  private final Rounding rounding;
  private final double leadMaxK;
  private final boolean sampleHeld;
  private final double innerDeadS;
  private final double innerGainPerK;
  private final double innerIntegralS;
  private final double delayS;
  private final double neckPerS;
  private final double lossPerS;
  private final double lossRadiationPerSK3;

  ModelRegulator(Regulation settings, OvenModel model, Heater heater, RegulatorTuning tuning) {
    this.heater = heater;
    this.model = model;
    this.tuning = tuning;
    rounding = new Rounding(model, tuning, heater.dutyMax());
    leadMaxK = settings.ovenLeadMaxK();
    sampleHeld = settings.controlled() == Channel.SAMPLE_TEMPERATURE;
    // Half rule: half of the element's lag counts as dead time, and half of a relay's window.
    innerDeadS = model.deadTimeS() + model.elementS() / 2 + heater.windowS() / 2;
    double innerSlownessS = (1 + tuning.innerCalm()) * innerDeadS;
    innerGainPerK = 1 / (model.heatingKPerS() * innerSlownessS);
    innerIntegralS = 4 * innerSlownessS;
    delayS = model.elementS() + model.deadTimeS();
    neckPerS = 1 / model.neckS();
    lossPerS = model.lossPerS();
    lossRadiationPerSK3 = model.lossRadiationPerSK3();
  }

  OvenModel model() {
    return model;
  }

  /** How this oven's setpoint is moved. */
  Rounding rounding() {
    return rounding;
  }

  /**
   * One tick.
   *
   * @param course of the setpoint, moved on in this tick
   */
  Regulator.Turn step(
      RegulatorState state,
      Course course,
      double measuredSampleK,
      double ovenK,
      double roomK,
      double tickS) {
    boolean fresh = !state.active();
    double r = course.setpointK();
    double r1 = course.rateKPerS();
    double sampleS = sampleHeld ? model.sampleSecondsAt(r) : 0;
    double vesselS = sampleHeld ? model.vesselSecondsAt(r) : 0;
    if (sampleHeld) {
      // T1⁴ - T2⁴ is nearly 4 T³ (T1 - T2) with T halfway between the two.
      double halfLeadK =
          (ovenFor(r, r1, course.secondDerivative(), sampleS, vesselS, roomK) - r) / 2;
      double vesselShare = sampleS / (sampleS + vesselS);
      sampleS = model.sampleSecondsAt(r + halfLeadK * vesselShare);
      vesselS = model.vesselSecondsAt(r + halfLeadK * (1 + vesselShare));
    }
    double forward = forward(course, sampleS, vesselS, roomK);
    double w = ovenFor(r, r1, course.secondDerivative(), sampleS, vesselS, roomK);

    // The sample moves the oven.
    double measured = sampleHeld ? measuredSampleK : ovenK;
    double error = r - measured;
    double longS = StrictMath.max(vesselS, sampleS);
    double shortS = StrictMath.min(vesselS, sampleS);
    double outerDeadS = 2 * innerDeadS + FILTER_SHARE * shortS;
    double slownessS = (1 + tuning.outerCalm()) * outerDeadS;
    double outerGain = longS / slownessS;
    double outerIntegralS = StrictMath.min(longS, 4 * slownessS);
    // Series to ideal form: K = Kc f, Ti = TI f, Td = TD/f, f = 1 + TD/TI.
    double form = 1 + shortS / outerIntegralS;
    double filteredK = measured;
    double filteredRate = 0;
    if (!fresh && sampleHeld) {
      double share = tickS / (FILTER_SHARE * shortS + tickS);
      filteredK = state.filteredK() + share * (measured - state.filteredK());
      filteredRate = (filteredK - state.filteredK()) / tickS;
    }
    double ovenIntegralK = fresh ? 0 : state.ovenIntegralK();
    double moved =
        sampleHeld ? outerGain * (form * error + shortS * (r1 - filteredRate)) + ovenIntegralK : 0;
    double wanted = w + moved;
    double allowed = r + leadMaxK;
    double lowest = r - leadMaxK;
    double ovenSetpointK = StrictMath.max(lowest, StrictMath.min(allowed, wanted));

    // The oven moves the duty.
    double ovenError = ovenSetpointK - ovenK;
    double integral = fresh ? 0 : state.integral();
    double duty = forward + innerGainPerK * ovenError + integral;
    double given = StrictMath.max(0, StrictMath.min(heater.dutyMax(), duty));
    if (!((duty > heater.dutyMax() && ovenError > 0) || (duty < 0 && ovenError < 0))) {
      integral += innerGainPerK / innerIntegralS * ovenError * tickS;
    }
    boolean up = duty > heater.dutyMax() || wanted > allowed;
    boolean down = duty < 0 || wanted < lowest;
    if (sampleHeld && !((up && error > 0) || (down && error < 0))) {
      ovenIntegralK += outerGain / outerIntegralS * error * tickS;
    }
    boolean strained = (up && r1 > 0) || (down && r1 < 0);
    double progress = strained ? progress(r1 > 0 ? error : -error) : 1;
    double before = course.progress();
    double next = fresh ? 1 : before + tickS / (tickS + 2) * (progress - before);
    Regulator.Loop loop =
        new Regulator.Loop(course.leftWith(next), integral, filteredK, ovenIntegralK);
    return Regulator.drive(heater, loop, given, fresh, state, tickS);
  }

  /** The model backwards: the oven that makes the sample follow a course. */
  private double ovenFor(
      double r, double r1, double r2, double sampleS, double vesselS, double roomK) {
    double v = r + sampleS * r1;
    double v1 = r1 + sampleS * r2;
    return v + vesselS * (v1 + (v - roomK) / model.neckS());
  }

  /**
   * The model backwards: the duty that makes the oven follow the course. The heater is told ahead
   * by its element's lag and the dead time, to the first order: u(t + delay) = u + delay u'.
   */
  private double forward(Course course, double sampleS, double vesselS, double roomK) {
    double r1 = course.rateKPerS();
    double r2 = course.secondDerivative();
    double r3 = course.thirdDerivative();
    double v = course.setpointK() + sampleS * r1;
    double v1 = r1 + sampleS * r2;
    double v2 = r2 + sampleS * r3;
    double v3 = r3 + sampleS * course.fourthDerivative();
    double q = v1 + (v - roomK) * neckPerS;
    double q1 = v2 + v1 * neckPerS;
    double w = v + vesselS * q;
    double w1 = v1 + vesselS * q1;
    double w2 = v2 + vesselS * (v3 + v2 * neckPerS);
    double heat = w1 + model.lossKPerS(w, roomK) + model.vesselLoad() * q;
    double slope = w2 + lossSlopePerS(w) * w1 + model.vesselLoad() * q1;
    return (heat + delayS * slope) / model.heatingKPerS();
  }

  private double lossSlopePerS(double ovenK) {
    return lossPerS + 4 * lossRadiationPerSK3 * ovenK * ovenK * ovenK;
  }

  /**
   * How fast time passes for the setpoint of a strained oven (its duty or its lead at the limit):
   * at full speed while the sample lags by less than 0.7 K, not at all from 1.7 K on.
   */
  static double progress(double lagK) {
    double share = (WAIT_FROM_K - lagK) / (WAIT_FROM_K - SLOW_FROM_K);
    return StrictMath.max(0, StrictMath.min(1, share));
  }
}
