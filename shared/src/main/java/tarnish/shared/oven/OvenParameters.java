package tarnish.shared.oven;

/**
 * The model's parameters on scales where any number is allowed, which is where they are fitted:
 * log(p) for what is positive, log(p/(1-p)) for a share.
 */
final class OvenParameters {
  static final int COUNT = 11;

  /** Time to which a dead time of 0 is raised before its logarithm is taken, in s. */
  private static final double LEAST_DEAD_S = 0.05;

  private static final double LEAST_SHARE = 1e-3;

  private static final boolean[] SHARE = {
    false, false, false, false, true, false, true, false, true, false, false
  };

  private OvenParameters() {}

  static double[] natural(OvenModel m) {
    return new double[] {
      m.heatingKPerS(),
      m.elementS(),
      m.deadTimeS(),
      m.lossS(),
      m.lossRadiation(),
      m.vesselS(),
      m.vesselRadiation(),
      m.sampleS(),
      m.sampleRadiation(),
      m.neckS(),
      m.vesselLoad()
    };
  }

  static OvenModel model(double[] p) {
    return new OvenModel(p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8], p[9], p[10]);
  }

  static double[] toFree(OvenModel m) {
    double[] p = natural(m);
    p[2] = StrictMath.max(p[2], LEAST_DEAD_S);
    p[10] = StrictMath.max(p[10], LEAST_SHARE);
    for (int i = 0; i < COUNT; i++) {
      if (SHARE[i]) {
        double share = StrictMath.max(LEAST_SHARE, StrictMath.min(1 - LEAST_SHARE, p[i]));
        p[i] = StrictMath.log(share / (1 - share));
      } else {
        p[i] = StrictMath.log(p[i]);
      }
    }
    return p;
  }

  static OvenModel toModel(double[] free) {
    double[] p = new double[COUNT];
    for (int i = 0; i < COUNT; i++) {
      p[i] = SHARE[i] ? 1 / (1 + StrictMath.exp(-free[i])) : StrictMath.exp(free[i]);
    }
    return model(p);
  }

  /** dp/d(free), by which an uncertainty comes back to the natural scale. */
  static double slope(int i, double natural) {
    return SHARE[i] ? natural * (1 - natural) : natural;
  }

  /** How little is known beforehand: standard deviation on the free scale. */
  static double priorSpread(int i) {
    return SHARE[i] ? 1.5 : 1.0;
  }
}
