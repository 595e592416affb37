package tarnish.controller.control;

/**
 * Errors that add up while the gas is counted: what one standard deviation of each does to the
 * uptake, in mol.
 *
 * @param leakMol of the leak's rate
 * @param filledMol of what was filled in while the gauge could not tell
 * @param variance of what is random, in mol²
 */
record GasErrors(double leakMol, double filledMol, double variance) {
  static final GasErrors NONE = new GasErrors(0, 0, 0);

  GasErrors plus(GasErrors o) {
    return new GasErrors(leakMol + o.leakMol, filledMol + o.filledMol, variance + o.variance);
  }

  GasErrors minus(GasErrors o) {
    return new GasErrors(leakMol - o.leakMol, filledMol - o.filledMol, variance - o.variance);
  }
}
