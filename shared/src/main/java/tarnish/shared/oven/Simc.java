package tarnish.shared.oven;

/**
 * Tuning rules that need a simple model only.
 *
 * <p>Source: S. Skogestad, Simple analytic rules for model reduction and PID controller tuning, J.
 * Process Control 13 (2003) 291: Kc = (1/k) tau1/(tauc + theta), TI = min(tau1, 4 (tauc + theta)),
 * TD = tau2, for the series form; recommended tauc = theta.
 */
public final class Simc {
  private Simc() {}

  /**
   * Settings of a controller in the series form.
   *
   * @param gain Kc, in output per unit of the measurement
   * @param integralS TI
   * @param derivativeS TD, 0 for a PI controller
   */
  public record Settings(double gain, double integralS, double derivativeS) {
    /** The same controller in the ideal (parallel) form: K = Kc f, Ti = TI f, Td = TD/f. */
    public Settings ideal() {
      double factor = 1 + derivativeS / integralS;
      return new Settings(gain * factor, integralS * factor, derivativeS / factor);
    }
  }

  /**
   * A process k e^(-theta s) / ((tau1 s + 1)(tau2 s + 1)).
   *
   * @param gain k
   * @param tau1S the longer time constant
   * @param tau2S the shorter one, 0 for none
   * @param deadTimeS theta
   */
  public record Process(double gain, double tau1S, double tau2S, double deadTimeS) {
    public Process {
      if (!(gain > 0) || !(tau1S > 0) || !(tau2S >= 0) || !(deadTimeS >= 0)) {
        throw new IllegalArgumentException(
            "a process needs gain and time constants above 0, got "
                + gain
                + ", "
                + tau1S
                + " s, "
                + tau2S
                + " s, "
                + deadTimeS
                + " s");
      }
    }

    /** Half rule: half of what is left out goes to the dead time, half to what is kept. */
    public Process firstOrder() {
      return new Process(gain, tau1S + tau2S / 2, 0, deadTimeS + tau2S / 2);
    }
  }

  /**
   * Half rule for lags in falling order: the two largest are kept, half of the third goes to the
   * second and half, with all of the rest, to the dead time.
   */
  public static Process secondOrder(double gain, double deadTimeS, double... lagsFallingS) {
    double tau2S = lagsFallingS.length > 1 ? lagsFallingS[1] : 0;
    double deadS = deadTimeS;
    for (int i = 2; i < lagsFallingS.length; i++) {
      tau2S += i == 2 ? lagsFallingS[i] / 2 : 0;
      deadS += i == 2 ? lagsFallingS[i] / 2 : lagsFallingS[i];
    }
    return new Process(gain, lagsFallingS[0], tau2S, deadS);
  }

  /** PI, or PID where the process has a second lag, with closed-loop time constant tauc. */
  public static Settings tune(Process process, double closedLoopS) {
    double slowness = closedLoopS + process.deadTimeS();
    if (!(slowness > 0)) {
      throw new IllegalArgumentException("closed-loop time and dead time cannot both be 0 s");
    }
    return new Settings(
        process.tau1S() / (process.gain() * slowness),
        StrictMath.min(process.tau1S(), 4 * slowness),
        process.tau2S());
  }

  /** The same with the recommended tauc = theta. */
  public static Settings tune(Process process) {
    return tune(process, process.deadTimeS());
  }
}
