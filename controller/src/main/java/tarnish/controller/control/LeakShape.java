package tarnish.controller.control;

/**
 * How much of the rise in a leak test is a leak, told by its shape: a leak gives a straight line,
 * outgassing one that levels off (common practice).
 *
 * <p>With a leak's share s of the second half's rise b and outgassing that dies away with a time
 * constant T, the first half, h seconds earlier, rises by
 *
 * <pre>a = b (s + (1 - s) exp(h/T))</pre>
 *
 * Neither s nor T is known before: s is anything from 0 to 1, a small leak likelier than a large
 * one (a triangle, largest at nothing; JCGM 101:2008, 6.4), and T, alike likely in every octave, is
 * from a fifth of the watch to four times it. The readings weigh these by how well they foretell a.
 * Where noise hides the curvature the triangle is left, and only a line that is straight beyond its
 * noise is taken for a leak.
 *
 * @param share mean of s
 * @param meanSquare mean of s squared
 */
record LeakShape(double share, double meanSquare) {
  private static final double SHORTEST = 0.2;
  private static final double LONGEST = 4;
  private static final double NOISE_MIN_PA_PER_S = 1e-6;
  private static final int SHARES = 50;
  private static final int TIMES = 24;

  /**
   * Weighs both explanations.
   *
   * @param firstPaPerS rise in the first half
   * @param secondPaPerS rise in the second half
   * @param noisePaPerS standard uncertainty of each
   * @param watchS length of both halves
   */
  static LeakShape of(double firstPaPerS, double secondPaPerS, double noisePaPerS, double watchS) {
    double rise = StrictMath.max(0, secondPaPerS);
    double noise = StrictMath.max(noisePaPerS, NOISE_MIN_PA_PER_S);
    double[] offs = new double[TIMES * SHARES];
    double least = Double.MAX_VALUE;
    for (int n = 0; n < offs.length; n++) {
      double octave = (n / SHARES + 0.5) / TIMES;
      double timeS = watchS * SHORTEST * StrictMath.pow(LONGEST / SHORTEST, octave);
      double factor = share(n) + (1 - share(n)) * StrictMath.exp(watchS / 2 / timeS);
      double off = (firstPaPerS - factor * rise) / (noise * StrictMath.hypot(1, factor));
      offs[n] = off * off;
      least = StrictMath.min(least, offs[n]);
    }
    double weights = 0;
    double sum = 0;
    double squares = 0;
    for (int n = 0; n < offs.length; n++) {
      double weight = (1 - share(n)) * StrictMath.exp((least - offs[n]) / 2);
      weights += weight;
      sum += weight * share(n);
      squares += weight * share(n) * share(n);
    }
    return new LeakShape(sum / weights, squares / weights);
  }

  private static double share(int n) {
    return (n % SHARES + 0.5) / SHARES;
  }

  /** Of the product of share and rise, the two being independent. */
  double uncertaintyPaPerS(double risePaPerS, double noisePaPerS) {
    double spread = StrictMath.max(0, meanSquare - share * share);
    return StrictMath.sqrt(
        spread * risePaPerS * risePaPerS + meanSquare * noisePaPerS * noisePaPerS);
  }
}
