package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * What the valve's ratio r can be at all, whatever gas and heat say together.
 *
 * <p>Of the flow r F of all pulses until some moment the gauge saw S; the solid took up U = r F -
 * (S - V), of which V was seen. So
 *
 * <pre>
 *   V &lt;= U &lt;= x r F + E           nothing is given back; more than all oxygen cannot have gone
 *   x r F - L &lt;= U                 what is not left in the gas has gone
 * </pre>
 *
 * <p>x is the source's oxygen, E what was in the gas before, L the most that is left. The rate of
 * an oxidation is of first order in the oxygen at most: a solid that took up q just after a pulse
 * and q' &lt; q just before it had at most d q'/(q - q') of oxygen left then, d being the pulse's.
 * A solid that takes up every pulse whole and then stands still has left nothing, and its pulses
 * tell the valve's flow by their inert share although they all hide oxygen.
 *
 * <p>Between its bounds r is as probable as the fit says (JCGM 101:2008, 6.4: a distribution cut to
 * what is possible); bounds are as soft as their own uncertainty.
 */
final class ValveBounds {
  /** Seen uptake may be wrong by this share (filled-in rates). */
  private static final double SEEN_UNCERTAINTY = 0.05;

  /** With a rate that has not fallen at least to this share, nothing is said of what is left. */
  private static final double STOOD_STILL = 0.7;

  private static final double CLEAR = 3;

  /**
   * A solid that took up pulses whole was seen to take up this share of their oxygen at least: less
   * may be gas that comes to rest after a pulse.
   */
  private static final double SEEN_SHARE = 0.1;

  /** No valve passes so much more than its rig file says: what would need it is no evidence. */
  private static final double RATIO_MAX = 1.25;

  /** The grid begins so many spreads to each side of the mean and is narrowed so often. */
  private static final double WIDE = 5;

  private static final int ZOOMS = 3;
  private static final int POINTS = 64;

  /** Less probable than this against the most probable is left out. */
  private static final double NOTHING = 1e-5;

  /** Time in which a rate is measured, in s. */
  private static final double RATE_S = 15;

  private final ValveFlow.Block[] sums;

  /** Of r F - (S - V), in mol². */
  private final double[] variances;

  /** L, in mol. */
  private final double[] leftMol;

  private final Estimate oxygen;

  ValveBounds(ValveFlow.Block[] blocks, ValveFit.Beforehand known) {
    oxygen = known.sourceFraction();
    sums = new ValveFlow.Block[blocks.length];
    variances = new double[blocks.length];
    leftMol = new double[blocks.length];
    double noiseMolPerS = StrictMath.sqrt(known.stepVariance()) / RATE_S;
    ValveFlow.Block sum = ValveFlow.Block.EMPTY;
    double variance = 0;
    double goneMol = 0;
    double nowMol = 0;
    for (int i = 0; i < blocks.length; i++) {
      ValveFlow.Block b = blocks[i];
      double pulseMol = oxygen.value() * b.flowMol() / b.pulses();
      double atMostMol = nowMol + b.pulses() * pulseMol + b.otherOxygenMol();
      boolean taken = b.seenMol() > SEEN_SHARE * b.pulses() * pulseMol;
      double pulses = taken ? leftPulses(b.appetite(), noiseMolPerS) : Double.MAX_VALUE;
      nowMol = StrictMath.min(atMostMol, pulseMol * pulses);
      goneMol += StrictMath.min(atMostMol, b.appetite().exchanges() * nowMol);
      sum = sum.plus(b);
      variance += ValveFit.gasVariance(b, known.stepVariance());
      if (i > 0 && !blocks[i - 1].closed()) {
        // It goes on where the last one ended: what was read there is in both and cancels.
        variance -= ValveFit.endsVariance(known.stepVariance());
      }
      sums[i] = sum;
      variances[i] = variance;
      double inGasMol = sum.stepMol() - sum.seenMol() - goneMol - nowMol;
      boolean credible = inGasMol < (1 - oxygen.value()) * RATIO_MAX * sum.flowMol();
      leftMol[i] = credible ? goneMol + nowMol : Double.MAX_VALUE;
    }
  }

  /** Most oxygen that is left before a pulse, in pulses: without limit where nobody knows. */
  private static double leftPulses(ValveFlow.Appetite a, double noiseMolPerS) {
    double noise = noiseMolPerS * StrictMath.sqrt(a.pairs());
    double after = a.afterMolPerS() - noise;
    double share = (StrictMath.max(0, a.beforeMolPerS()) + noise) / after;
    boolean known = a.pairs() > 0 && after > CLEAR * noise && share < STOOD_STILL;
    return known ? share / (1 - share) : Double.MAX_VALUE;
  }

  /** A normal distribution of r, cut to what is possible. */
  Estimate within(double ratio, double spread) {
    if (sums.length == 0) {
      return new Estimate(ratio, spread);
    }
    double least = least();
    double[] range = {
      StrictMath.min(ratio - WIDE * spread, least),
      StrictMath.max(ratio + WIDE * spread, least / (1 - 0.5 * oxygen.value()))
    };
    for (int i = 0; i < ZOOMS; i++) {
      range = narrowed(range, ratio, spread);
    }
    double[] p = probabilities(range, ratio, spread);
    double sum = 0;
    double first = 0;
    double second = 0;
    for (int i = 0; i < POINTS; i++) {
      double d = at(i, range) - ratio;
      sum += p[i];
      first += p[i] * d;
      second += p[i] * d * d;
    }
    double mean = first / sum;
    return new Estimate(
        ratio + mean, StrictMath.sqrt(StrictMath.max(0, second / sum - mean * mean)));
  }

  /** The part of a range outside of which there is nothing to speak of. */
  private double[] narrowed(double[] range, double ratio, double spread) {
    double[] p = probabilities(range, ratio, spread);
    int first = 0;
    int last = POINTS - 1;
    while (p[first] < NOTHING) {
      first++;
    }
    while (p[last] < NOTHING) {
      last--;
    }
    return new double[] {
      at(StrictMath.max(0, first - 1), range), at(StrictMath.min(POINTS - 1, last + 1), range)
    };
  }

  /** At the points of a range, the greatest being 1. */
  private double[] probabilities(double[] range, double ratio, double spread) {
    double[] p = new double[POINTS];
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < POINTS; i++) {
      double r = at(i, range);
      double z = (r - ratio) / spread;
      p[i] = -z * z / 2 - impossible(r);
      most = StrictMath.max(most, p[i]);
    }
    for (int i = 0; i < POINTS; i++) {
      p[i] = StrictMath.exp(p[i] - most);
    }
    return p;
  }

  private static double at(int i, double[] range) {
    return range[0] + (range[1] - range[0]) * i / (POINTS - 1);
  }

  /** The ratio at which nothing was hidden in all. */
  private double least() {
    ValveFlow.Block all = sums[sums.length - 1];
    return all.stepMol() / all.flowMol();
  }

  /** Half the square of how many uncertainties r lies outside of its tightest bounds. */
  private double impossible(double ratio) {
    double below = 0;
    double above = 0;
    for (int i = 0; i < sums.length; i++) {
      ValveFlow.Block b = sums[i];
      double takenMol = ratio * b.flowMol() - (b.stepMol() - b.seenMol());
      double inMol = oxygen.value() * ratio * b.flowMol();
      double purityMol = oxygen.standardUncertainty() * ratio * b.flowMol();
      double seenVariance = SEEN_UNCERTAINTY * b.seenMol() * SEEN_UNCERTAINTY * b.seenMol();
      double variance = variances[i] + purityMol * purityMol;
      double lacking =
          StrictMath.max(
              (b.seenMol() - takenMol) / StrictMath.sqrt(variances[i] + seenVariance),
              (inMol - leftMol[i] - takenMol) / StrictMath.sqrt(variance));
      double over = (takenMol - inMol - b.otherOxygenMol()) / StrictMath.sqrt(variance);
      below = StrictMath.max(below, lacking);
      above = StrictMath.max(above, over);
    }
    return (below * below + above * above) / 2;
  }
}
