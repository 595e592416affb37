package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * The fit of {@link ValveFlow}: least squares with what is known beforehand as further equations,
 * and then only what is possible ({@link ValveBounds}).
 *
 * @param ratio r
 * @param ratioUncertainty standard uncertainty of it
 * @param molPerKelvinSecond a
 * @param molPerKelvinSecondUncertainty standard uncertainty of it
 * @param ratioPerMol what an error of all S - V together, spread like the flow, does to r, in
 *     1/mol: 0 where r is known otherwise, 1/F where r follows the gas
 */
record ValveFit(
    double ratio,
    double ratioUncertainty,
    double molPerKelvinSecond,
    double molPerKelvinSecondUncertainty,
    double ratioPerMol) {

  /** A conductance from a rig file with supply pressure and volume, relative: common practice. */
  private static final double STATED_CONDUCTANCE = 0.055;

  static final ValveFit BEFOREHAND = new ValveFit(1, STATED_CONDUCTANCE, 0, 0, 0);

  /**
   * One opening of a valve repeats to this, relative: some milliseconds of a second, common
   * practice.
   */
  private static final double REPEATABILITY = 0.005;

  /**
   * Noise of S - V, the change of the gas, is that of both ends of a stretch in which no other
   * valve was open: rates that fill in are in both S and V.
   */
  private static final double ENDS = 2;

  /**
   * The gas at one end is read behind a filter, which leaves a third of the noise of a step, and
   * the correction for the filter's lag puts a little back.
   */
  private static final double STEP_VARIANCES = 0.5;

  /** Noise of the heat's integral between two moments, in K s: from simulated benches. */
  private static final double HEAT_EDGE_KS = 9;

  /**
   * The balance's error, alike in all blocks, is this share of its bound: from simulated benches.
   */
  private static final double BALANCE_SHARE = 0.35;

  /** The balance wanders by this share of its error from block to block: from simulated benches. */
  private static final double WANDERING = 0.25;

  /**
   * What is known without the pulses.
   *
   * @param molPerKelvinSecond a, by the charge's heat capacity
   * @param stepVariance of one baseline, in mol²
   * @param sourceFraction oxygen's share of the source: more than that cannot have gone
   */
  record Beforehand(Estimate molPerKelvinSecond, double stepVariance, Estimate sourceFraction) {}

  /** Oxygen that goes with an excess of 1 K for 1 s, in mol. */
  Estimate oxygenPerHeat() {
    return new Estimate(molPerKelvinSecond, molPerKelvinSecondUncertainty);
  }

  /** The least that it may be: two standard uncertainties less, in mol/(K s). */
  double leastMolPerKelvinSecond() {
    return molPerKelvinSecond - 2 * molPerKelvinSecondUncertainty;
  }

  static ValveFit of(ValveFlow.Block[] blocks, Beforehand known) {
    ValveFit fit = fitted(blocks, known);
    if (blocks.length == 0) {
      return fit;
    }
    double flowMol = 0;
    double variance = 0;
    for (ValveFlow.Block b : blocks) {
      flowMol += b.flowMol();
      variance += gasVariance(b, known.stepVariance());
    }
    double moreMol = StrictMath.sqrt(variance);
    ValveFlow.Block[] moved = new ValveFlow.Block[blocks.length];
    for (int i = 0; i < blocks.length; i++) {
      moved[i] = blocks[i].withMoreStep(moreMol * blocks[i].flowMol() / flowMol);
    }
    double perMol = (fitted(moved, known).ratio() - fit.ratio()) / moreMol;
    return fit.withRatioPerMol(StrictMath.max(0, StrictMath.min(1 / flowMol, perMol)));
  }

  private ValveFit withRatioPerMol(double perMol) {
    return new ValveFit(
        ratio, ratioUncertainty, molPerKelvinSecond, molPerKelvinSecondUncertainty, perMol);
  }

  private static ValveFit fitted(ValveFlow.Block[] blocks, Beforehand known) {
    Estimate a = known.molPerKelvinSecond();
    double[] mean = {1, a.value(), 0};
    double[] spread = {
      STATED_CONDUCTANCE, a.standardUncertainty(), StrictMath.max(1e-12, BALANCE_SHARE * a.value())
    };
    double[][] normal = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    double[] right = new double[3];
    for (ValveFlow.Block b : blocks) {
      double[] x = {
        b.flowMol() * spread[0], -b.heatKs() * spread[1], -b.errorKs() * spread[2],
      };
      double predicted = mean[0] * b.flowMol() - mean[1] * b.heatKs();
      double lacking = b.stepMol() - b.seenMol() - predicted;
      double variance = variance(b, known);
      for (int i = 0; i < 3; i++) {
        right[i] += x[i] * lacking / variance;
        for (int j = 0; j < 3; j++) {
          normal[i][j] += x[i] * x[j] / variance;
        }
      }
    }
    double[][] inverse = inverse(normal);
    double widened =
        StrictMath.sqrt(StrictMath.max(1, chi(blocks, known, mean, spread, inverse, right)));
    double ratio = mean[0] + spread[0] * row(inverse, 0, right);
    double ratioSpread = spread[0] * StrictMath.sqrt(inverse[0][0]) * widened;
    Estimate possible = new ValveBounds(blocks, known).within(ratio, ratioSpread);
    // What is known of r moves a along with it: a | r is linear in r.
    double perRatio = spread[1] / spread[0] * inverse[1][0] / inverse[0][0];
    double rest = inverse[1][1] - inverse[1][0] * inverse[1][0] / inverse[0][0];
    return new ValveFit(
        possible.value(),
        possible.standardUncertainty(),
        mean[1] + spread[1] * row(inverse, 1, right) + perRatio * (possible.value() - ratio),
        StrictMath.hypot(
            spread[1] * StrictMath.sqrt(StrictMath.max(0, rest)) * widened,
            perRatio * possible.standardUncertainty()),
        0);
  }

  /** Residuals against their own spread: above 1 the blocks scatter more than they should. */
  private static double chi(
      ValveFlow.Block[] blocks,
      Beforehand known,
      double[] mean,
      double[] spread,
      double[][] inverse,
      double[] right) {
    if (blocks.length < 6) {
      return 1;
    }
    double sum = 0;
    for (ValveFlow.Block b : blocks) {
      double r = mean[0] + spread[0] * row(inverse, 0, right);
      double a = mean[1] + spread[1] * row(inverse, 1, right);
      double g = spread[2] * row(inverse, 2, right);
      double residual =
          b.stepMol() - b.seenMol() - r * b.flowMol() + a * b.heatKs() + g * b.errorKs();
      sum += residual * residual / variance(b, known);
    }
    return sum / (blocks.length - 2);
  }

  private static double variance(ValveFlow.Block b, Beforehand known) {
    double heatKs = StrictMath.hypot(HEAT_EDGE_KS, WANDERING * b.errorKs());
    double heatMol = heatKs * known.molPerKelvinSecond().value();
    return gasVariance(b, known.stepVariance()) + heatMol * heatMol;
  }

  /** Of what the block's flow left in the gas, in mol². */
  static double gasVariance(ValveFlow.Block b, double stepVariance) {
    double repeats = REPEATABILITY * b.flowMol();
    int stretches = 1 + b.appetite().exchanges();
    return stretches * endsVariance(stepVariance) + repeats * repeats / b.pulses();
  }

  /** Of the change of the gas over one stretch. */
  static double endsVariance(double stepVariance) {
    return ENDS * STEP_VARIANCES * stepVariance;
  }

  /**
   * Standard uncertainty of the heat's integral over some time, in K s.
   *
   * @param boundKs what the balance's error may do to it at most
   */
  static double heatNoiseKs(double boundKs) {
    return StrictMath.hypot(HEAT_EDGE_KS, BALANCE_SHARE * boundKs);
  }

  private static double row(double[][] inverse, int i, double[] right) {
    return inverse[i][0] * right[0] + inverse[i][1] * right[1] + inverse[i][2] * right[2];
  }

  /** Of a symmetric matrix whose diagonal is 1 or more; by cofactors. */
  private static double[][] inverse(double[][] m) {
    double a = m[1][1] * m[2][2] - m[1][2] * m[2][1];
    double b = m[1][2] * m[2][0] - m[1][0] * m[2][2];
    double c = m[1][0] * m[2][1] - m[1][1] * m[2][0];
    double det = m[0][0] * a + m[0][1] * b + m[0][2] * c;
    double[][] inverse = new double[3][3];
    inverse[0][0] = a / det;
    inverse[0][1] = b / det;
    inverse[0][2] = c / det;
    inverse[1][0] = inverse[0][1];
    inverse[2][0] = inverse[0][2];
    inverse[1][1] = (m[0][0] * m[2][2] - m[0][2] * m[2][0]) / det;
    inverse[1][2] = (m[0][2] * m[1][0] - m[0][0] * m[1][2]) / det;
    inverse[2][1] = inverse[1][2];
    inverse[2][2] = (m[0][0] * m[1][1] - m[0][1] * m[1][0]) / det;
    return inverse;
  }
}
