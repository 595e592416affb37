package tarnish.shared.oven;

/**
 * What a relay in place of the controller tells about a process.
 *
 * <p>Sources: K. J. Åström and T. Hägglund, Automatica 20 (1984) 645 (Ku = 4d/(pi a), from memory);
 * J. G. Ziegler and N. B. Nichols, Trans. ASME 64 (1942) 759 (from memory). The cycle of an ideal
 * relay on a first-order process with dead time is exact, by integration over half a period.
 */
public final class RelayTest {
  private RelayTest() {}

  /**
   * A steady cycle.
   *
   * @param amplitude half of the swing of the measurement
   * @param periodS of the cycle
   */
  public record Cycle(double amplitude, double periodS) {}

  /** The cycle of a relay ±d on k e^(-theta s)/(tau s + 1): a = k d (1 - e^(-theta/tau)). */
  public static Cycle firstOrder(double gain, double tauS, double deadTimeS, double relay) {
    double grown = StrictMath.exp(deadTimeS / tauS);
    return new Cycle(gain * relay * (1 - 1 / grown), 2 * tauS * StrictMath.log(2 * grown - 1));
  }

  /**
   * The process behind a cycle, where its gain is known from a step: the inverse of {@link
   * #firstOrder}.
   */
  public static Simc.Process processOf(Cycle cycle, double gain, double relay) {
    double share = cycle.amplitude() / (gain * relay);
    if (!(share > 0 && share < 1)) {
      throw new IllegalArgumentException(
          "the swing must be above 0 and below what the relay could reach, got a share of "
              + share);
    }
    double grown = 1 / (1 - share);
    double tauS = cycle.periodS() / (2 * StrictMath.log(2 * grown - 1));
    return new Simc.Process(gain, tauS, 0, tauS * StrictMath.log(grown));
  }

  /** Ku = 4 d / (pi a), the describing function of an ideal relay. */
  public static double ultimateGain(Cycle cycle, double relay) {
    return 4 * relay / (StrictMath.PI * cycle.amplitude());
  }

  /** Ziegler-Nichols, closed loop: PI 0.45 Ku, Pu/1.2. */
  public static Simc.Settings zieglerNicholsPi(double ultimateGain, double periodS) {
    return new Simc.Settings(0.45 * ultimateGain, periodS / 1.2, 0);
  }

  /** Ziegler-Nichols, closed loop, ideal form: PID 0.6 Ku, Pu/2, Pu/8. */
  public static Simc.Settings zieglerNicholsPid(double ultimateGain, double periodS) {
    return new Simc.Settings(0.6 * ultimateGain, periodS / 2, periodS / 8);
  }
}
