package tarnish.shared.oven;

/**
 * A lumped model of oven, vessel and sample, in quantities that a step of the heater shows without
 * knowing any heat capacity.
 *
 * <pre>
 *   e'  = (u(t - theta) - e) / tau_e                                    element, as a duty
 *   Tw' = b e - l (Tw - T0) - rho (Tw⁴ - T0⁴) - m q                     oven wall
 *   Tv' = q - (Tv - T0) / neck,  q = kv (Tw - Tv) + kappa_v (Tw⁴ - Tv⁴) vessel
 *   Ts' = ks (Tv - Ts) + kappa_s (Tv⁴ - Ts⁴)                            sample
 * </pre>
 *
 * <p>A path of heat that conducts and radiates is given by its time constant at {@link
 * #REFERENCE_K} and the share of it that is radiation there: tau = 1/(k + 4 kappa T³), share = 4
 * kappa T³ tau.
 *
 * @param heatingKPerS b, rise of the oven at full duty before it loses anything, above 0
 * @param elementS tau_e, lag of the heater element, above 0
 * @param deadTimeS theta, 0 or more
 * @param lossS time constant of the oven's loss to the room at the reference temperature, above 0
 * @param lossRadiation share of the loss that is radiation there, 0 to 1
 * @param vesselS time constant of the vessel behind the oven wall, above 0
 * @param vesselRadiation share of it that is radiation, 0 to 1
 * @param sampleS time constant of the sample behind the vessel, above 0
 * @param sampleRadiation share of it that is radiation, 0 to 1
 * @param neckS time constant of the vessel's own loss along its neck, above 0
 * @param vesselLoad m, heat capacity of the vessel as a share of the oven wall's, 0 or more
 */
public record OvenModel(
    double heatingKPerS,
    double elementS,
    double deadTimeS,
    double lossS,
    double lossRadiation,
    double vesselS,
    double vesselRadiation,
    double sampleS,
    double sampleRadiation,
    double neckS,
    double vesselLoad) {

  /** Temperature at which time constants are stated, in K. */
  public static final double REFERENCE_K = 600;

  private static final double FOUR_CUBES = 4 * REFERENCE_K * REFERENCE_K * REFERENCE_K;

  public OvenModel {
    positive("heating", heatingKPerS);
    positive("element", elementS);
    atLeastZero("dead time", deadTimeS);
    positive("loss", lossS);
    share("loss by radiation", lossRadiation);
    positive("vessel lag", vesselS);
    share("vessel radiation", vesselRadiation);
    positive("sample lag", sampleS);
    share("sample radiation", sampleRadiation);
    positive("neck", neckS);
    atLeastZero("vessel load", vesselLoad);
  }

  private static void positive(String what, double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "the oven model's " + what + " must be finite and above 0, got " + value);
    }
  }

  private static void atLeastZero(String what, double value) {
    if (!(value >= 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "the oven model's " + what + " must be finite and at least 0, got " + value);
    }
  }

  private static void share(String what, double value) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException(
          "the oven model's " + what + " must be from 0 to 1, got " + value);
    }
  }

  /** l in 1/s. */
  public double lossPerS() {
    return (1 - lossRadiation) / lossS;
  }

  /** rho in 1/(s K³). */
  public double lossRadiationPerSK3() {
    return lossRadiation / (lossS * FOUR_CUBES);
  }

  /** kv in 1/s. */
  public double vesselPerS() {
    return (1 - vesselRadiation) / vesselS;
  }

  /** kappa_v in 1/(s K³). */
  public double vesselRadiationPerSK3() {
    return vesselRadiation / (vesselS * FOUR_CUBES);
  }

  /** ks in 1/s. */
  public double samplePerS() {
    return (1 - sampleRadiation) / sampleS;
  }

  /** kappa_s in 1/(s K³). */
  public double sampleRadiationPerSK3() {
    return sampleRadiation / (sampleS * FOUR_CUBES);
  }

  /** Time constant in s of the vessel behind the oven at a temperature in K. */
  public double vesselSecondsAt(double temperatureK) {
    return secondsAt(vesselS, vesselRadiation, temperatureK);
  }

  /** Time constant in s of the sample behind the vessel at a temperature in K. */
  public double sampleSecondsAt(double temperatureK) {
    return secondsAt(sampleS, sampleRadiation, temperatureK);
  }

  private static double secondsAt(double seconds, double radiation, double temperatureK) {
    double relative = temperatureK / REFERENCE_K;
    return seconds / (1 - radiation + radiation * relative * relative * relative);
  }

  /** Loss of the oven wall at {@code ovenK} in a room at {@code roomK}, in K/s. */
  public double lossKPerS(double ovenK, double roomK) {
    return lossPerS() * (ovenK - roomK) + lossRadiationPerSK3() * (fourth(ovenK) - fourth(roomK));
  }

  /** Duty that holds the oven at {@code ovenK} for ever, the vessel's own loss included. */
  public double holdingDuty(double ovenK, double roomK) {
    double vesselS = vesselSecondsAt(ovenK);
    double vesselK = roomK + (ovenK - roomK) * neckS / (neckS + vesselS);
    double toVessel = vesselLoad * (vesselK - roomK) / neckS;
    return (lossKPerS(ovenK, roomK) + toVessel) / heatingKPerS;
  }

  static double fourth(double temperatureK) {
    double square = temperatureK * temperatureK;
    return square * square;
  }
}
