package tarnish.sim;

/**
 * Random numbers that are the same on every machine: xoshiro256++ (Blackman and Vigna, 2019) with a
 * 128-block ziggurat for the normal distribution (Marsaglia and Tsang 2000, in the form of Doornik
 * 2005). Not thread-safe.
 */
final class SeededNoise {
  private static final int BLOCKS = 128;
  private static final double TAIL = 3.442619855899;
  private static final double AREA = 9.91256303526217e-3;
  private static final double[] EDGE = new double[BLOCKS + 1];
  private static final double[] RATIO = new double[BLOCKS];

  static {
    double density = StrictMath.exp(-0.5 * TAIL * TAIL);
    EDGE[0] = AREA / density;
    EDGE[1] = TAIL;
    for (int i = 2; i < BLOCKS; i++) {
      EDGE[i] = StrictMath.sqrt(-2 * StrictMath.log(AREA / EDGE[i - 1] + density));
      density = StrictMath.exp(-0.5 * EDGE[i] * EDGE[i]);
    }
    for (int i = 0; i < BLOCKS; i++) {
      RATIO[i] = EDGE[i + 1] / EDGE[i];
    }
  }

  private long s0;
  private long s1;
  private long s2;
  private long s3;

  /**
   * @param seed of the whole bench
   * @param stream tells apart the uses that one bench makes of it
   */
  SeededNoise(long seed, long stream) {
    long x = seed + 0x632be59bd9b4e019L * stream;
    s0 = splitMix(x += 0x9e3779b97f4a7c15L);
    s1 = splitMix(x += 0x9e3779b97f4a7c15L);
    s2 = splitMix(x += 0x9e3779b97f4a7c15L);
    s3 = splitMix(x + 0x9e3779b97f4a7c15L);
  }

  /** Goes on as {@code other} would. */
  void takeFrom(SeededNoise other) {
    s0 = other.s0;
    s1 = other.s1;
    s2 = other.s2;
    s3 = other.s3;
  }

  private static long splitMix(long x) {
    x = (x ^ (x >>> 30)) * 0xbf58476d1ce4e5b9L;
    x = (x ^ (x >>> 27)) * 0x94d049bb133111ebL;
    return x ^ (x >>> 31);
  }

  long nextLong() {
    long result = Long.rotateLeft(s0 + s3, 23) + s0;
    long t = s1 << 17;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= t;
    s3 = Long.rotateLeft(s3, 45);
    return result;
  }

  /** Even between 0 (included) and 1 (not included). */
  double uniform() {
    return (nextLong() >>> 11) * 0x1.0p-53;
  }

  /** Normal with mean 0 and standard deviation 1. */
  double gaussian() {
    while (true) {
      long bits = nextLong();
      int i = (int) bits & (BLOCKS - 1);
      double u = (bits >> 11) * 0x1.0p-52;
      if (u < RATIO[i] && u > -RATIO[i]) {
        return u * EDGE[i];
      }
      if (i == 0) {
        return tail(u < 0);
      }
      double x = u * EDGE[i];
      double outer = StrictMath.exp(-0.5 * (EDGE[i] * EDGE[i] - x * x));
      double inner = StrictMath.exp(-0.5 * (EDGE[i + 1] * EDGE[i + 1] - x * x));
      if (inner + uniform() * (outer - inner) < 1) {
        return x;
      }
    }
  }

  private double tail(boolean negative) {
    double x;
    double y;
    do {
      x = StrictMath.log(1 - uniform()) / TAIL;
      y = StrictMath.log(1 - uniform());
    } while (-2 * y < x * x);
    return negative ? x - TAIL : TAIL - x;
  }
}
