package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/** One place in a flattened recipe. */
sealed interface Instruction {
  int depth();

  /**
   * Do a step that is not a repeat.
   *
   * @param rampRateKPerS rate of the last ramp before it, used to come back to a soak
   */
  record Do(Step step, int depth, double rampRateKPerS) implements Instruction {}

  /** A repeat begins; {@code end} is the place of its {@link LoopEnd}. */
  record LoopStart(Step.Repeat repeat, int depth, int end) implements Instruction {}

  /** A repeat's pass ends; {@code start} is the place of its {@link LoopStart}. */
  record LoopEnd(Step.Repeat repeat, int depth, int start) implements Instruction {}
}
