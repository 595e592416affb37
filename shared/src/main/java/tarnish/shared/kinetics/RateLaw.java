package tarnish.shared.kinetics;

import java.util.function.DoubleUnaryOperator;

/**
 * Rate laws of a solid in the integral form g(α) = k t at constant temperature; α is the
 * conversion, k in 1/s.
 *
 * <p>With δ = 1 - (1 - α)^(1/3), the depth to which a sphere has reacted as a share of its radius:
 *
 * <pre>
 *   linear              α                     first order          -ln(1 - α)
 *   parabolic (D1)      α²                    cylinder (D2)        (1 - α) ln(1 - α) + α
 *   Jander (D3)         δ²                    Ginstling-Br. (D4)   1 - 2α/3 - (1 - α)^(2/3)
 *   shrinking cylinder  1 - (1 - α)^(1/2)     shrinking sphere     δ
 * </pre>
 *
 * <p>Textbook forms (Brown, Dollimore, Galwey 1980; Khawam and Flanagan, J. Phys. Chem. B 110
 * (2006) 17315); from memory.
 */
public enum RateLaw {
  LINEAR("linear", 1, a -> a, y -> y, a -> 1),
  FIRST_ORDER(
      "first order",
      Double.POSITIVE_INFINITY,
      a -> -StrictMath.log1p(-a),
      y -> -StrictMath.expm1(-y),
      a -> 1 - a),
  PARABOLIC("parabolic (D1)", 1, a -> a * a, StrictMath::sqrt, a -> 1 / (2 * a)),
  CYLINDER_DIFFUSION(
      "diffusion in a cylinder (D2)",
      1,
      RateLaw::cylinder,
      RateLaw::cylinderInverse,
      a -> -1 / StrictMath.log1p(-a)),
  JANDER(
      "Jander (D3)",
      1,
      a -> depth(a) * depth(a),
      y -> ofDepth(StrictMath.sqrt(y)),
      a -> 1.5 * (1 - depth(a)) * (1 - depth(a)) / depth(a)),
  // 1 - 2α/3 - (1 - α)^(2/3) = δ² - 2δ³/3, without the cancellation; the inverse is the root of
  // that cubic: δ = sin²(φ/2) + (√3/2) sin φ with φ = (2/3) asin √(3y).
  GINSTLING_BROUNSHTEIN(
      "Ginstling-Brounshtein (D4)",
      1.0 / 3,
      a -> depth(a) * depth(a) * (1 - 2 * depth(a) / 3),
      RateLaw::ginstlingInverse,
      a -> 1.5 * (1 - depth(a)) / depth(a)),
  SHRINKING_CYLINDER(
      "shrinking cylinder (R2)",
      1,
      a -> -StrictMath.expm1(StrictMath.log1p(-a) / 2),
      y -> y * (2 - y),
      a -> 2 * StrictMath.sqrt(1 - a)),
  SHRINKING_SPHERE(
      "shrinking sphere (R3)",
      1,
      RateLaw::depth,
      RateLaw::ofDepth,
      a -> 3 * (1 - depth(a)) * (1 - depth(a)));

  private final String words;
  private final double complete;
  private final DoubleUnaryOperator integral;
  private final DoubleUnaryOperator inverse;
  private final DoubleUnaryOperator slope;

  RateLaw(
      String words,
      double complete,
      DoubleUnaryOperator integral,
      DoubleUnaryOperator inverse,
      DoubleUnaryOperator slope) {
    this.words = words;
    this.complete = complete;
    this.integral = integral;
    this.inverse = inverse;
    this.slope = slope;
  }

  /** As a report calls it. */
  public String words() {
    return words;
  }

  /** g at full conversion; infinite where that is never reached. */
  public double complete() {
    return complete;
  }

  /**
   * g(α).
   *
   * @param conversion α, 0 to 1
   */
  public double integral(double conversion) {
    share(conversion);
    return conversion == 1 ? complete : integral.applyAsDouble(conversion);
  }

  /** The conversion at which g has the value {@code reached}, 0 or more; 1 from completion on. */
  public double conversion(double reached) {
    if (!(reached >= 0)) {
      throw new IllegalArgumentException("g(α) is at least 0, got " + reached);
    }
    if (reached == 0) {
      return 0;
    }
    return reached >= complete ? 1 : inverse.applyAsDouble(reached);
  }

  /**
   * f(α) = 1/g'(α), so that dα/dt = k f(α); infinite at α = 0 where diffusion starts without a
   * crust.
   *
   * @param conversion α, 0 to 1
   */
  public double slope(double conversion) {
    share(conversion);
    return slope.applyAsDouble(conversion);
  }

  private static double depth(double conversion) {
    return -StrictMath.expm1(StrictMath.log1p(-conversion) / 3);
  }

  private static double ofDepth(double depth) {
    return depth * (3 - depth * (3 - depth));
  }

  private static double cylinder(double conversion) {
    return (1 - conversion) * StrictMath.log1p(-conversion) + conversion;
  }

  private static double ginstlingInverse(double reached) {
    double phi = StrictMath.asin(StrictMath.sqrt(3 * reached)) * 2 / 3;
    double half = StrictMath.sin(phi / 2);
    return ofDepth(half * half + StrictMath.sqrt(3) / 2 * StrictMath.sin(phi));
  }

  /** Newton's method, kept inside a shrinking bracket. */
  private static double cylinderInverse(double reached) {
    double low = 0;
    double high = 1;
    double conversion = StrictMath.min(0.999, StrictMath.sqrt(2 * reached));
    for (int i = 0; i < 60; i++) {
      double error = cylinder(conversion) - reached;
      if (error > 0) {
        high = conversion;
      } else {
        low = conversion;
      }
      // g'(α) = -ln(1 - α).
      double next = conversion + error / StrictMath.log1p(-conversion);
      if (!(next > low && next < high)) {
        next = (low + high) / 2;
      }
      if (StrictMath.abs(next - conversion) <= 1e-15 * conversion) {
        return next;
      }
      conversion = next;
    }
    return conversion;
  }

  private static void share(double conversion) {
    if (!(conversion >= 0 && conversion <= 1)) {
      throw new IllegalArgumentException("a conversion lies between 0 and 1, got " + conversion);
    }
  }
}
