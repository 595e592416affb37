package tarnish.controller.control;

/**
 * What the oxygen valve passes, learnt from cold pulses, so that uptake during a pulse is not lost.
 *
 * <p>Each pulse gives a step S (the gas that arrived, by the gauge) and a flow F (what the valve
 * would pass in that time by ISO 6358 with the rig file's conductance). What was taken up unseen is
 * missing in the step. It is not missing in the heat: all uptake of a block of pulses, seen (V) and
 * hidden, is in proportion to the integral Y of the sample's excess temperature ({@link
 * HeatBalance}). So for every block
 *
 * <pre>
 *   S - V = r F - a Y - g Z
 * </pre>
 *
 * with the valve's ratio r, the oxygen a that goes with heat and the error g of the heat balance,
 * which are the same for all blocks. They are fitted together, from what the rig file says of r and
 * the charge's heat capacity of a (JCGM 102:2011): blocks that took up much and blocks that took up
 * little tell r and a apart, and early in a batch, when they cannot be told apart yet, the spread
 * is as wide as it should be. A valve that is only learnt late still tells what the first pulses
 * hid.
 *
 * <p>Immutable: arrays are replaced.
 *
 * @param blocks sums of each block, the last one still being filled
 * @param flowMol sum of all flows
 * @param stepMol sum of all steps
 * @param pulses how many
 * @param mark where the last pulse, or the time apart, ended
 * @param covered errors of the account that are in the blocks
 * @param merges how often blocks were merged in pairs: what a block holds doubles each time
 * @param fit of r and a to the blocks
 */
record ValveFlow(
    Block[] blocks,
    double flowMol,
    double stepMol,
    int pulses,
    Until mark,
    GasErrors covered,
    int merges,
    ValveFit fit) {
  /**
   * What account and heat balance have added up until a moment.
   *
   * @param seenMol uptake that the gauge saw
   * @param heatKs integral of the excess, in K s
   * @param heatErrorKs what the balance's error does to it
   * @param errors of the account
   */
  record Until(double seenMol, double heatKs, double heatErrorKs, GasErrors errors) {
    static final Until BEGINNING = new Until(0, 0, 0, GasErrors.NONE);

    static Until of(double seenMol, HeatBalance heat, GasErrors errors) {
      return new Until(seenMol, heat.integralKs(), heat.integralUncertaintyKs(), errors);
    }
  }

  /**
   * How the solid took to the pulses: sums over those before which the rate was known.
   *
   * @param pairs how many
   * @param beforeMolPerS rate just before the pulse
   * @param afterMolPerS rate just after it
   * @param exchanges how often the gas was pumped off or vented meanwhile
   */
  record Appetite(int pairs, double beforeMolPerS, double afterMolPerS, int exchanges) {
    static final Appetite UNKNOWN = new Appetite(0, 0, 0, 0);

    Appetite plus(Appetite o) {
      return new Appetite(
          pairs + o.pairs,
          beforeMolPerS + o.beforeMolPerS,
          afterMolPerS + o.afterMolPerS,
          exchanges + o.exchanges);
    }
  }

  /**
   * Sums over pulses that follow each other; see the class for the letters.
   *
   * @param appetite how the solid took to them
   * @param otherOxygenMol oxygen that was in the gas before the first of them, at most
   * @param closed whether the next pulse opens another block, however few are in this one
   */
  record Block(
      int pulses,
      double flowMol,
      double stepMol,
      double seenMol,
      double heatKs,
      double errorKs,
      Appetite appetite,
      double otherOxygenMol,
      boolean closed) {
    static final Block EMPTY = new Block(0, 0, 0, 0, 0, 0, Appetite.UNKNOWN, 0, false);

    Block withMoreStep(double moreMol) {
      return new Block(
          pulses,
          flowMol,
          stepMol + moreMol,
          seenMol,
          heatKs,
          errorKs,
          appetite,
          otherOxygenMol,
          closed);
    }

    Block withClosed() {
      return new Block(
          pulses, flowMol, stepMol, seenMol, heatKs, errorKs, appetite, otherOxygenMol, true);
    }

    Block plus(Block o) {
      return new Block(
          pulses + o.pulses,
          flowMol + o.flowMol,
          stepMol + o.stepMol,
          seenMol + o.seenMol,
          heatKs + o.heatKs,
          errorKs + o.errorKs,
          appetite.plus(o.appetite),
          otherOxygenMol + o.otherOxygenMol,
          o.closed);
    }
  }

  static final ValveFlow UNKNOWN =
      new ValveFlow(new Block[0], 0, 0, 0, Until.BEGINNING, GasErrors.NONE, 0, ValveFit.BEFOREHAND);

  private static final int PER_BLOCK = 16;
  private static final int BLOCKS_MAX = 64;

  /** A heat balance is not better than this share of the hidden uptake: from simulated benches. */
  private static final double HEAT_SHARE = 0.015;

  /**
   * Time apart: uptake and heat until now belong to no pulse of this valve, and the next pulse
   * opens a block of its own.
   */
  ValveFlow marked(Until now) {
    Block[] closed = blocks;
    if (blocks.length > 0 && !blocks[blocks.length - 1].closed()) {
      closed = blocks.clone();
      closed[closed.length - 1] = blocks[blocks.length - 1].withClosed();
    }
    return new ValveFlow(closed, flowMol, stepMol, pulses, now, covered, merges, fit);
  }

  /**
   * After one more cold pulse.
   *
   * @param appetite how the solid took to it
   * @param oxygenBeforeMol in the gas before it, at most
   * @param known what is known without this valve's pulses
   */
  ValveFlow with(
      double pulseFlowMol,
      double pulseStepMol,
      Until now,
      Appetite appetite,
      double oxygenBeforeMol,
      ValveFit.Beforehand known) {
    int n = blocks.length;
    boolean follows = n > 0 && !blocks[n - 1].closed();
    Block pulse =
        new Block(
            1,
            pulseFlowMol,
            pulseStepMol,
            now.seenMol() - mark.seenMol(),
            now.heatKs() - mark.heatKs(),
            now.heatErrorKs() - mark.heatErrorKs(),
            appetite,
            follows ? 0 : oxygenBeforeMol,
            false);
    boolean opens = !follows || blocks[n - 1].pulses() >= PER_BLOCK << merges;
    Block[] next = new Block[opens ? n + 1 : n];
    System.arraycopy(blocks, 0, next, 0, n);
    next[next.length - 1] = opens ? pulse : next[next.length - 1].plus(pulse);
    Block[] bounded = next.length > BLOCKS_MAX ? merged(next) : next;
    return new ValveFlow(
        bounded,
        flowMol + pulseFlowMol,
        stepMol + pulseStepMol,
        pulses + 1,
        now,
        covered.plus(now.errors().minus(mark.errors())),
        next.length > BLOCKS_MAX ? merges + 1 : merges,
        ValveFit.of(bounded, known));
  }

  private static Block[] merged(Block[] full) {
    Block[] half = new Block[(full.length + 1) / 2];
    for (int i = 0; i < half.length; i++) {
      half[i] = 2 * i + 1 < full.length ? full[2 * i].plus(full[2 * i + 1]) : full[2 * i];
    }
    return half;
  }

  boolean isKnown() {
    return pulses >= PER_BLOCK;
  }

  /** True flow over nominal flow. */
  double ratio() {
    return fit.ratio();
  }

  /** Uptake hidden until now, as the valve is known {@code later}. */
  double hiddenMol(ValveFlow later) {
    return later.fit.ratio() * flowMol - stepMol;
  }

  /**
   * What of the account's errors gets through to an uptake in which so much flowed. An error of the
   * gas that the valve was learnt by is in the valve's ratio too: where nothing but the gas tells
   * the ratio, what the gauge saw too much was hidden too little, and the sum is right.
   *
   * @param since errors of the account in that uptake
   */
  GasErrors through(GasErrors since, double flow) {
    double back = fit.ratioPerMol() * flow;
    double random =
        covered.variance() > 0 ? StrictMath.min(1, since.variance() / covered.variance()) : 0;
    double through = 1 - back * random;
    return new GasErrors(
        since.leakMol() - back * covered.leakMol(),
        since.filledMol() - back * covered.filledMol(),
        since.variance() * through * through);
  }

  /** What one standard deviation of what is known of the valve does to {@code hiddenMol}. */
  double hiddenUncertaintyMol(double flow, double hiddenMol) {
    return StrictMath.hypot(fit.ratioUncertainty() * flow, HEAT_SHARE * hiddenMol);
  }
}
