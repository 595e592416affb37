package tarnish.shared.kinetics;

import java.util.List;

/**
 * Least squares of α = g⁻¹(g(α₀) + k t) in α, by damped Gauss-Newton steps (Levenberg, Marquardt)
 * kept within 0 ≤ α₀ &lt; 1 and k ≥ 0.
 */
final class LeastSquares {
  private static final int MOST_STEPS = 200;
  private static final double START_MOST = 0.999;

  private final RateLaw law;
  private final List<UptakePoint> points;
  private final boolean startFitted;

  /** A place in the search with all that is known there. */
  static final class Place {
    double rate;
    double start;
    double sumOfSquares;
    double rateRate;
    double rateStart;
    double startStart;
    double rateGradient;
    double startGradient;
  }

  LeastSquares(RateLaw law, List<UptakePoint> points, Start start) {
    this.law = law;
    this.points = points;
    this.startFitted = start == Start.FITTED;
  }

  /** The least sum of squares, from several first guesses: a law with an end has more valleys. */
  Place solve() {
    double first = share(points.get(0).conversion(), START_MOST);
    Place best = descend(guess(0));
    if (startFitted) {
      best = lower(best, descend(guess(first)));
      best = lower(best, descend(guess(first / 2)));
    }
    return best;
  }

  private static Place lower(Place a, Place b) {
    return b.sumOfSquares < a.sumOfSquares ? b : a;
  }

  /** With α₀ given, k from Σ (g(αᵢ) - g(α₀)) over Σ tᵢ. */
  private Place guess(double start) {
    double reached = 0;
    double time = 0;
    for (UptakePoint point : points) {
      reached += law.integral(share(point.conversion(), 0.99)) - law.integral(start);
      time += point.timeS();
    }
    double least = 1e-6 * law.integral(0.5) / points.get(points.size() - 1).timeS();
    return place(StrictMath.max(least, reached / time), start);
  }

  private Place descend(Place from) {
    Place at = from;
    double damping = 1e-3;
    for (int i = 0; i < MOST_STEPS && damping < 1e12; i++) {
      Place next = step(at, damping);
      if (next.sumOfSquares < at.sumOfSquares) {
        boolean still = at.sumOfSquares - next.sumOfSquares <= 1e-11 * at.sumOfSquares;
        at = next;
        damping = StrictMath.max(1e-12, damping / 10);
        if (still) {
          break;
        }
      } else {
        damping *= 10;
      }
    }
    return at;
  }

  private Place step(Place at, double damping) {
    double grown = 1 + damping;
    boolean pressed = at.start == 0 && at.startGradient <= 0;
    double rateStep = at.rateRate > 0 ? at.rateGradient / (at.rateRate * grown) : 0;
    double startStep = 0;
    double determinant = at.rateRate * grown * at.startStart * grown - at.rateStart * at.rateStart;
    if (startFitted && !pressed && determinant > 0) {
      rateStep =
          (at.rateGradient * at.startStart * grown - at.startGradient * at.rateStart) / determinant;
      startStep =
          (at.startGradient * at.rateRate * grown - at.rateGradient * at.rateStart) / determinant;
    }
    // A step across a bound goes half of the way there, so that none is hit by a wild guess; only a
    // start that is next to nothing is put to 0.
    double rate = at.rate + rateStep > 0 ? at.rate + rateStep : at.rate / 2;
    double start = at.start + startStep;
    if (start < 0) {
      start = at.start < 1e-9 ? 0 : at.start / 2;
    } else if (start > START_MOST) {
      start = (at.start + START_MOST) / 2;
    }
    return place(rate, startFitted ? start : 0);
  }

  /** Sum of squares, gradient JᵀR and JᵀJ with ∂α/∂k = f(α) t and ∂α/∂α₀ = f(α)/f(α₀). */
  Place place(double rate, double start) {
    Place at = new Place();
    at.rate = rate;
    at.start = start;
    double before = law.integral(start);
    double startSlope = law.slope(start);
    for (UptakePoint point : points) {
      double conversion = law.conversion(before + rate * point.timeS());
      double residual = point.conversion() - conversion;
      boolean first = point.timeS() == 0;
      boolean over = conversion >= 1;
      // At the very start both slopes may be infinite; their ratio is 1.
      double slope = first || over ? 0 : law.slope(conversion);
      double byRate = slope * point.timeS();
      double byStart = first ? 1 : slope / startSlope;
      at.sumOfSquares += residual * residual;
      at.rateRate += byRate * byRate;
      at.rateStart += byRate * byStart;
      at.startStart += byStart * byStart;
      at.rateGradient += byRate * residual;
      at.startGradient += byStart * residual;
    }
    return at;
  }

  private static double share(double conversion, double most) {
    return StrictMath.max(0, StrictMath.min(most, conversion));
  }
}
