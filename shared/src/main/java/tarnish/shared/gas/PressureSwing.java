package tarnish.shared.gas;

/**
 * Purging by cycles of pumping down and filling: each leaves the share p_low/p_high of what was
 * there.
 *
 * <pre>x_n = x_f + (x_0 - x_f) (p_low/p_high)ⁿ</pre>
 *
 * x_0 is the amount fraction before, x_f that in the fill gas. It holds for gas that mixes fully
 * and for a solid that holds none back; pores and adsorbed moisture need time, not cycles.
 *
 * @param lowPa pressure pumped down to, above 0
 * @param highPa pressure filled to, above {@code lowPa}
 */
public record PressureSwing(double lowPa, double highPa) {
  private static final int MOST_CYCLES = 1_000_000;

  public PressureSwing {
    if (!(lowPa > 0 && lowPa < highPa) || Double.isInfinite(highPa)) {
      throw new IllegalArgumentException(
          "a purge pumps down to a pressure above 0 Pa and fills to a higher one, got "
              + lowPa
              + " Pa and "
              + highPa
              + " Pa");
    }
  }

  /** Fraction after {@code cycles}, 0 or more. */
  public double residual(double before, double inFillGas, int cycles) {
    fraction(before);
    fraction(inFillGas);
    if (cycles < 0) {
      throw new IllegalArgumentException("cycles must be at least 0, got " + cycles);
    }
    return inFillGas + (before - inFillGas) * StrictMath.pow(lowPa / highPa, cycles);
  }

  /**
   * Fewest cycles that bring the fraction to at most {@code wanted}.
   *
   * @throws IllegalArgumentException if the fill gas itself holds as much as is wanted
   */
  public int cyclesFor(double before, double inFillGas, double wanted) {
    fraction(before);
    fraction(inFillGas);
    if (!(wanted > inFillGas)) {
      throw new IllegalArgumentException(
          "no purge gets below the fill gas, which holds a fraction of "
              + inFillGas
              + "; wanted is "
              + wanted);
    }
    int cycles = 0;
    while (residual(before, inFillGas, cycles) > wanted && cycles < MOST_CYCLES) {
      cycles++;
    }
    return cycles;
  }

  private static void fraction(double fraction) {
    if (!(fraction >= 0 && fraction <= 1)) {
      throw new IllegalArgumentException("a fraction lies between 0 and 1, got " + fraction);
    }
  }
}
