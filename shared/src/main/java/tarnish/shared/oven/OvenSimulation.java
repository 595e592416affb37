package tarnish.shared.oven;

/**
 * Carries an {@link OvenModel} through time: the prediction of oven and sample without reaction.
 *
 * <p>The element is exact for a duty that stands still, the masses follow the midpoint rule. The
 * dead time is the caller's: give {@link #step} the duty that arrives. Allocates nothing per step.
 * Not thread-safe.
 */
public final class OvenSimulation {
  private double elementShare;
  private double forStepS;
  private final double elementS;
  private final double heating;
  private final double loss;
  private final double loss4;
  private final double vessel;
  private final double vessel4;
  private final double sample;
  private final double sample4;
  private final double neckPerS;
  private final double load;

  private double element;
  private double ovenK;
  private double vesselK;
  private double sampleK;

  /** Starts at rest, everything at {@code startK}, the heater off. */
  public OvenSimulation(OvenModel model, double startK) {
    elementS = model.elementS();
    heating = model.heatingKPerS();
    loss = model.lossPerS();
    loss4 = model.lossRadiationPerSK3();
    vessel = model.vesselPerS();
    vessel4 = model.vesselRadiationPerSK3();
    sample = model.samplePerS();
    sample4 = model.sampleRadiationPerSK3();
    neckPerS = 1 / model.neckS();
    load = model.vesselLoad();
    ovenK = startK;
    vesselK = startK;
    sampleK = startK;
  }

  /**
   * Lets time pass.
   *
   * @param duty mean duty of the step, 0 to 1, as it arrives at the element
   * @param roomK temperature that the oven loses its heat to
   * @param seconds of the step, small against every time constant
   */
  public void step(double duty, double roomK, double seconds) {
    if (seconds != forStepS) {
      forStepS = seconds;
      elementShare = -StrictMath.expm1(-seconds / elementS);
    }
    double room4 = OvenModel.fourth(roomK);
    double before = element;
    element += elementShare * (duty - element);
    // Mean of the element's exponential over the step.
    double heat = heating * (duty + (before - element) * elementS / seconds);
    double half = 0.5 * seconds;
    double oven4 = OvenModel.fourth(ovenK);
    double vesselNow4 = OvenModel.fourth(vesselK);
    double q = vessel * (ovenK - vesselK) + vessel4 * (oven4 - vesselNow4);
    double s = sample * (vesselK - sampleK) + sample4 * (vesselNow4 - OvenModel.fourth(sampleK));
    double midOven =
        ovenK + half * (heat - loss * (ovenK - roomK) - loss4 * (oven4 - room4) - load * q);
    double midVessel = vesselK + half * (q - neckPerS * (vesselK - roomK));
    double midSample = sampleK + half * s;
    oven4 = OvenModel.fourth(midOven);
    vesselNow4 = OvenModel.fourth(midVessel);
    q = vessel * (midOven - midVessel) + vessel4 * (oven4 - vesselNow4);
    s = sample * (midVessel - midSample) + sample4 * (vesselNow4 - OvenModel.fourth(midSample));
    ovenK += seconds * (heat - loss * (midOven - roomK) - loss4 * (oven4 - room4) - load * q);
    vesselK += seconds * (q - neckPerS * (midVessel - roomK));
    sampleK += seconds * s;
  }

  public double ovenK() {
    return ovenK;
  }

  public double vesselK() {
    return vesselK;
  }

  public double sampleK() {
    return sampleK;
  }
}
