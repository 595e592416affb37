package tarnish.controller.control;

/**
 * What the oxygen valve passes, learnt from cold pulses, so that uptake during a pulse is not lost.
 *
 * <p>Each pulse gives a step (the gas that arrived, by the gauge) and a flow (what the valve would
 * pass in that time by ISO 6358 with the rig file's conductance). Their ratio is a property of the
 * valve as long as nothing is taken up while the gauge cannot see it; fast uptake can only make the
 * step too small. So pulses are pooled in blocks, the blocks with the highest ratio stand for the
 * valve, and what blocks below it lack has gone into the solid. This works backwards too: a valve
 * that is only learnt late in the batch still tells what the first pulses hid.
 *
 * @param steadyFlowMol flow of the blocks that stand for the valve
 * @param steadyStepMol their steps
 * @param steadyPulses their pulses
 * @param hidingFlowMol flow of the blocks that lack something
 * @param hidingStepMol their steps
 * @param hidingPulses their pulses
 * @param blockFlowMol flow of the block being filled
 * @param blockStepMol its steps
 * @param blockPulses its pulses
 * @param blockExcessK sum of how much warmer the sample was after each
 * @param generation how often the valve turned out to pass more than thought
 */
record ValveFlow(
    double steadyFlowMol,
    double steadyStepMol,
    int steadyPulses,
    double hidingFlowMol,
    double hidingStepMol,
    int hidingPulses,
    double blockFlowMol,
    double blockStepMol,
    int blockPulses,
    double blockExcessK,
    int generation) {
  static final ValveFlow UNKNOWN = new ValveFlow(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);

  private static final int BLOCK = 8;

  /** Mean warming of the sample over a block that tells uptake from noise, in K. */
  private static final double WARMED_K = 0.02;

  /** Deviations of a block that tell uptake from noise. */
  private static final double CLEAR = 3;

  /** A valve does not repeat better than this, relative: common practice. */
  private static final double REPEATABILITY = 0.002;

  /** Shares that may go unnoticed; found by trials on simulated benches. */
  private static final double UNDETECTED_OF_OXYGEN = 0.3;

  private static final double UNDETECTED_OF_FLOW = 0.012;

  /** A conductance from a rig file, relative: common practice. */
  private static final double STATED_CONDUCTANCE = 0.05;

  /**
   * After one more cold pulse.
   *
   * @param stepVariance that of one step, in mol²
   * @param excessK how much warmer the sample was some seconds after the pulse
   */
  ValveFlow with(double flowMol, double stepMol, double stepVariance, double excessK) {
    ValveFlow next =
        new ValveFlow(
            steadyFlowMol,
            steadyStepMol,
            steadyPulses,
            hidingFlowMol,
            hidingStepMol,
            hidingPulses,
            blockFlowMol + flowMol,
            blockStepMol + stepMol,
            blockPulses + 1,
            blockExcessK + excessK,
            generation);
    return next.blockPulses < BLOCK ? next : next.judged(stepVariance);
  }

  private ValveFlow judged(double stepVariance) {
    if (blockExcessK / blockPulses > WARMED_K) {
      return hidingWithBlock();
    }
    if (steadyPulses == 0) {
      return steadyWithBlock();
    }
    double lackMol = ratio() * blockFlowMol - blockStepMol;
    double random = StrictMath.sqrt(blockPulses * stepVariance);
    double known = blockFlowMol * ratioUncertainty(stepVariance);
    double clearMol = CLEAR * StrictMath.hypot(random, known);
    if (lackMol > clearMol) {
      return hidingWithBlock();
    }
    return lackMol < -clearMol ? startedAnew() : steadyWithBlock();
  }

  private ValveFlow hidingWithBlock() {
    return new ValveFlow(
        steadyFlowMol,
        steadyStepMol,
        steadyPulses,
        hidingFlowMol + blockFlowMol,
        hidingStepMol + blockStepMol,
        hidingPulses + blockPulses,
        0,
        0,
        0,
        0,
        generation);
  }

  private ValveFlow steadyWithBlock() {
    return new ValveFlow(
        steadyFlowMol + blockFlowMol,
        steadyStepMol + blockStepMol,
        steadyPulses + blockPulses,
        hidingFlowMol,
        hidingStepMol,
        hidingPulses,
        0,
        0,
        0,
        0,
        generation);
  }

  /** The valve passes more than thought: all blocks until now have hidden something. */
  private ValveFlow startedAnew() {
    return new ValveFlow(
        blockFlowMol,
        blockStepMol,
        blockPulses,
        hidingFlowMol + steadyFlowMol,
        hidingStepMol + steadyStepMol,
        hidingPulses + steadyPulses,
        0,
        0,
        0,
        0,
        generation + 1);
  }

  boolean isKnown() {
    return steadyPulses > 0;
  }

  /** True flow over nominal flow. */
  double ratio() {
    return steadyPulses > 0 ? steadyStepMol / steadyFlowMol : 1;
  }

  double ratioUncertainty(double stepVariance) {
    return steadyPulses > 0
        ? StrictMath.hypot(
            StrictMath.sqrt(steadyPulses * stepVariance) / steadyFlowMol, REPEATABILITY)
        : STATED_CONDUCTANCE;
  }

  /**
   * Uptake hidden until now, as the valve is known {@code later}.
   *
   * @param sourceFraction oxygen's share of the source: more than that cannot have gone
   */
  double hiddenMol(ValveFlow later, double sourceFraction) {
    double flow = hidingFlowMol(later);
    double step = hidingStepMol + (later.generation > generation ? steadyStepMol : 0);
    return later.boundIsBetter(sourceFraction)
        ? step * (sourceFraction / 2) / (1 - sourceFraction / 2)
        : later.ratio() * flow - step;
  }

  /** Standard uncertainty of what {@code flowMol} hid. */
  double hiddenUncertaintyMol(double flowMol, double stepVariance, double sourceFraction) {
    // Anything from nothing to all oxygen that came: uniform (JCGM 100:2008, 4.3.7).
    return boundIsBetter(sourceFraction)
        ? flowMol * sourceFraction / StrictMath.sqrt(12)
        : flowMol * ratioUncertainty(stepVariance);
  }

  /**
   * What the pulses that stand for the valve may have hidden all the same, alike in every block: a
   * share of the oxygen that came, and not more than the sample's warming would have shown.
   */
  double undetectedMol(double sourceFraction) {
    double share = StrictMath.min(UNDETECTED_OF_OXYGEN * sourceFraction, UNDETECTED_OF_FLOW);
    return share * steadyFlowMol / StrictMath.sqrt(12);
  }

  private boolean boundIsBetter(double sourceFraction) {
    return steadyPulses == 0 && sourceFraction / StrictMath.sqrt(12) < STATED_CONDUCTANCE;
  }

  /** Flow behind {@link #hiddenMol}, in mol. */
  double hidingFlowMol(ValveFlow later) {
    return hidingFlowMol + (later.generation > generation ? steadyFlowMol : 0);
  }
}
